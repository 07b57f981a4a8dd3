// An independent check of what a star out of focus shows of a Newtonian whose primary's axis misses the middle of
// the field, for POV-Ray 3.7 (Debian package povray): its own intersection code finds where each ray meets mirror
// and screen; only the law of reflection is written out here.
//
//   povray +Istar_shadow.pov -D +W1 +H1 -F Declare=Unused=0
//
// reads star_shadow.in.csv (one case per line) and writes star_shadow.out.csv: the inputs, then how far the dark spot
// stands off the middle of the disc as part of the disc's width, x and y, inside focus and beyond it; what the row
// checks, and its mark.
//
// Frame: origin at the primary's vertex, z along the tube toward the sky, x toward the focuser, right-handed; the
// light's way back is left unfolded. The star stands in the middle of the field: its ray to the vertex comes back
// along z. The glass is a round disc that stands in the light, square to the tube. Columns: aperture, focal length,
// vertex to glass, width of the glass, where the primary's axis meets the focal plane x,y, the glass's middle x,y,
// waves out of focus (of 550 nm, peak to valley), all lengths mm.
// The middle along x is half way between the edges on the line along x, and y likewise.
#version 3.7;
global_settings { assumed_gamma 1.0 }
camera { location <0,0,-1> look_at <0,0,0> }
light_source { <0,0,-1> rgb 1 }

// rotate V by the rotation vector W (Rodrigues' formula, right-handed)
#macro Turn(V, W)
  (V*cos(vlength(W)) + vcross(W, V)*(sin(vlength(W))/max(vlength(W), 1e-30)) + W*(vdot(W, V)*(1-cos(vlength(W)))/max(vdot(W, W), 1e-60)))
#end
#macro Bounce(D, N) ( D - 2*vdot(D, N)*N ) #end

#fopen In "star_shadow.in.csv" read
#fopen Out "star_shadow.out.csv" write
#while (defined(In))
  #read (In, D, F, L, A, Ex, Ey, Gx, Gy, Waves)
  // the rotation about the vertex that takes the axis from <0,0,1> toward <Ex,Ey,F>
  #local E = sqrt(Ex*Ex + Ey*Ey);
  #local W = <-Ey, Ex, 0>*(atan2(E, F)/max(E, 1e-30));
  #local UX = Turn(<1,0,0>, W);
  #local UY = Turn(<0,1,0>, W);
  #local UZ = Turn(<0,0,1>, W);
  #local Primary = quadric { <1,1,0>, <0,0,0>, <0,0,-4*F>, 0
    matrix <UX.x,UX.y,UX.z, UY.x,UY.y,UY.z, UZ.x,UZ.y,UZ.z, 0,0,0> }
  #local Down = Bounce(<0,0,1>, UZ);
  #local Edge = D*D/(16*F);
  #write (Out, str(D,0,1),",",str(F,0,1),",",str(L,0,1),",",str(A,0,2),",",str(Ex,0,4),",",str(Ey,0,4),",",str(Gx,0,4),",",str(Gy,0,4),",",str(Waves,0,1))
  #local Side = -1;
  #while (Side < 2)
    #local Screen = plane { <0,0,1>, F + Side*8*F*F/(D*D)*Waves*550e-6 }
    #local N = <0,0,0>;
    // where the star's ray past a point ends on the screen
    #macro End(Q)
      #local P = trace(Primary, Q - Down, Down, N);
      #local V = Bounce(Down, vnormalize(N));
      (trace(Screen, P + V*1e-3, V, N))
    #end
    #local DR = End( UX*D/2 + UZ*Edge);
    #local DL = End(-UX*D/2 + UZ*Edge);
    #local DT = End( UY*D/2 + UZ*Edge);
    #local DB = End(-UY*D/2 + UZ*Edge);
    #local SR = End(<Gx + A/2, Gy, L>);
    #local SL = End(<Gx - A/2, Gy, L>);
    #local ST = End(<Gx, Gy + A/2, L>);
    #local SB = End(<Gx, Gy - A/2, L>);
    #local Wide = abs(DR.x - DL.x);
    #write (Out, ",",str(((SR.x+SL.x) - (DR.x+DL.x))/2/Wide,0,6),",",str(((ST.y+SB.y) - (DT.y+DB.y))/2/Wide,0,6))
    #local Side = Side + 2;
  #end
  #write (Out, ",StarOffset,traced\n")
#end
#fclose In
#fclose Out
