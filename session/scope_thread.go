package session

import "errors"

func threadLeadMM(name string) (float64, error) {
	leads := map[string]float64{"M3": 0.5, "M4": 0.7, "M5": 0.8, "M5x0.5": 0.5, "M6": 1, "#8-32": 25.4 / 32, "1/4-20": 1.27}
	if v, ok := leads[name]; ok {
		return v, nil
	}
	return 0, errors.New(`a thread such as "M5", "M5x0.5", "#8-32" or "1/4-20"`)
}

func checkThread(name string) error {
	_, err := threadLeadMM(name)
	return err
}
