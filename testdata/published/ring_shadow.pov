// An independent check of where the centre ring's shadow comes back when a lens spreads the laser's light, for POV-Ray
// 3.7 (Debian package povray): its own intersection code finds where each ray meets each surface; only the law of
// reflection is written out here.
//
//   povray +Iring_shadow.pov -D +W1 +H1 -F Declare=Unused=0
//
// reads ring_shadow.in.csv (one case per line) and writes ring_shadow.out.csv: focal length, vertex to secondary, tube
// axis to source; where the primary's axis meets the focal plane, from the focuser's axis z,y; where the focuser's axis
// meets the primary x,y; the source, from the focuser's axis z,y; the ring's middle on the primary x,y; the shadow's
// middle on the plane through the source square to the focuser's axis, from where that axis meets it, less the source
// z,y; what the row checks, and its mark. All mm.
//
// Frame: origin at the primary's vertex, z along the tube toward the sky, x toward the focuser, right-handed (y = z cross
// x). Columns read: focal length, vertex to secondary, tube axis to source, secondary plate gradient dz/dx, dz/dy, primary
// gradient dz/dx, dz/dy, source z,y, ring x,y.
// The ray that meets the ring's middle leaves the source toward that point's picture in the secondary.
#version 3.7;
global_settings { assumed_gamma 1.0 }
camera { location <0,0,-1> look_at <0,0,0> }
light_source { <0,0,-1> rgb 1 }

// rotate V by the rotation vector W (Rodrigues' formula, right-handed)
#macro Turn(V, W)
  (V*cos(vlength(W)) + vcross(W, V)*(sin(vlength(W))/max(vlength(W), 1e-30)) + W*(vdot(W, V)*(1-cos(vlength(W)))/max(vdot(W, W), 1e-60)))
#end
#macro Bounce(D, N) ( D - 2*vdot(D, N)*N ) #end

#fopen In "ring_shadow.in.csv" read
#fopen Out "ring_shadow.out.csv" write
#while (defined(In))
  #read (In, F, L, XT, SGx, SGy, PGx, PGy, Oz, Oy, Mx, My)
  #local WS = <SGy, -SGx, 0>;
  #local WP = <PGy, -PGx, 0>;
  #local NS = vnormalize(Turn(vnormalize(<1, 0, -1>), WS));
  #local S0 = <0, 0, L>;
  #local Secondary = plane { NS, vdot(NS, S0) }
  #local EX = Turn(<1,0,0>, WP);
  #local EY = Turn(<0,1,0>, WP);
  #local EZ = Turn(<0,0,1>, WP);
  #local Primary = quadric { <1,1,0>, <0,0,0>, <0,0,-4*F>, 0
    matrix <EX.x,EX.y,EX.z, EY.x,EY.y,EY.z, EZ.x,EZ.y,EZ.z, 0,0,0> }
  #local Face = plane { <1,0,0>, XT }
  #local Focal = plane { <1,0,0>, F - L }
  #local N = <0,0,0>;
  // the primary's axis
  #local A1 = trace(Secondary, <0,0,0>, EZ, N);
  #local AD = Bounce(EZ, NS);
  #local A2 = trace(Focal, A1 + AD*1e-3, AD, N);
  // the focuser's axis
  #local B1 = trace(Secondary, <XT,0,L>, <-1,0,0>, N);
  #local B2 = trace(Primary, B1, Bounce(<-1,0,0>, NS), N);
  // the ray by the ring's middle
  #local O = <XT, Oy, L+Oz>;
  #local M = EX*Mx + EY*My + EZ*(Mx*Mx+My*My)/(4*F);
  #local D0 = vnormalize(M - 2*vdot(M - S0, NS)*NS - O);
  #local P1 = trace(Secondary, O, D0, N);
  #local D1 = Bounce(D0, NS);
  #local P2 = trace(Primary, P1, D1, N);
  #local D2 = Bounce(D1, vnormalize(N));
  #local P3 = trace(Secondary, P2 + D2*1e-3, D2, N);
  #local D3 = Bounce(D2, NS);
  #local P4 = trace(Face, P3 + D3*1e-3, D3, N);
  #write (Out, str(F,0,1),",",str(L,0,1),",",str(XT,0,1),",",str(A2.z-L,0,5),",",str(A2.y,0,5),",",str(vdot(B2,EX),0,5),",",str(vdot(B2,EY),0,5),",",
    str(Oz,0,2),",",str(Oy,0,2),",",str(Mx,0,2),",",str(My,0,2),",",str(P4.z-O.z,0,5),",",str(P4.y-O.y,0,5),",ShadowOf AxisErrorFromShadow,traced\n")
#end
#fclose In
#fclose Out
