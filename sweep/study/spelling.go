package study

import (
	"slices"
	"strings"
	"unicode/utf8"

	"finduel/model/quantity"
)

// spellings holds how data sheets and hobby shops also write units, by the symbol that a
// study prefers (common practice, no source). Units are otherwise taken exactly as
// spelled: mW and MW differ.
var spellings = map[quantity.Kind]map[string]string{
	quantity.Speed:                {"RPM": "rpm", "r/min": "rpm", "1/min": "rpm", "min-1": "rpm", "rps": "rev/s"},
	quantity.FinDensity:           {"FPI": "fpi", "fins per inch": "fpi", "fins/inch": "fpi", "fins per cm": "fins/cm"},
	quantity.VolumeFlow:           {"CFM": "cfm", "GPM": "gpm", "CMH": "m3/h", "m3/hr": "m3/h", "LPM": "L/min", "lpm": "L/min", "l/min": "L/min", "l/h": "L/h", "l/s": "L/s"},
	quantity.Pressure:             {"mmAq": "mmH2O", "mmWG": "mmH2O", "mm H2O": "mmH2O", "mmH₂O": "mmH2O", "inAq": "inH2O", "inWG": "inH2O", "in H2O": "inH2O", "inH₂O": "inH2O", "mAq": "mH2O"},
	quantity.SpeedConstant:        {"kv": "rpm/V", "Kv": "rpm/V", "KV": "rpm/V", "RPM/V": "rpm/V"},
	quantity.ElectricalResistance: {"mΩ": "mohm", "Ω": "ohm", "mOhm": "mohm", "Ohm": "ohm", "milliohm": "mohm", "milliohms": "mohm", "ohms": "ohm"},
	quantity.Length:               {"inch": "in", "inches": "in", "\"": "in", "″": "in"},
	quantity.Temperature:          {"degC": "°C", "deg C": "°C", "ºC": "°C", "˚C": "°C", "℃": "°C", "Celsius": "°C", "celsius": "°C", "degF": "°F", "deg F": "°F", "ºF": "°F", "˚F": "°F", "℉": "°F"},
	quantity.Resistance:           {"°C/W": "K/W", "C/W": "K/W"},
	quantity.Power:                {"watt": "W", "watts": "W", "Watt": "W", "Watts": "W"},
	quantity.Current:              {"amp": "A", "amps": "A", "Amp": "A", "Amps": "A", "ampere": "A", "amperes": "A"},
	quantity.Voltage:              {"volt": "V", "volts": "V", "Volt": "V", "Volts": "V"},
	quantity.SoundLevel:           {"dBa": "dBA", "dbA": "dBA", "dB A": "dBA"},
}

// unitOf returns the unit of a kind that is written as symbol, by its own symbol or as
// the trade also spells it.
func unitOf(kind quantity.Kind, symbol string) (quantity.Unit, bool) {
	if preferred, ok := spellings[kind][symbol]; ok {
		symbol = preferred
	}
	return quantity.Find(kind, symbol)
}

// kindsOf returns every kind that has a unit written as symbol, the trade's spellings
// among them.
func kindsOf(symbol string) []quantity.Kind {
	list := quantity.KindsOf(symbol)
	for k := quantity.Ratio; k <= quantity.SpeedSlope; k++ {
		if _, ok := spellings[k][symbol]; ok {
			list = append(list, k)
		}
	}
	return list
}

// nearestUnit returns the unit of a kind that a symbol was probably meant to be, and
// false if that is not plain: another prefix, or another letter, is another size and no
// misspelling: gph is not gpm.
func nearestUnit(kind quantity.Kind, symbol string) (string, bool) {
	for _, s := range symbols(kind) {
		mega := s[0] == 'm' && symbol[0] == 'M' // or metre, and something unheard of
		if !mega && strings.EqualFold(strings.TrimPrefix(s, "°"), strings.TrimPrefix(symbol, "°")) {
			return s, true
		}
	}
	first, _ := utf8.DecodeRuneInString(symbol)
	for _, s := range symbols(kind) {
		if same, _ := utf8.DecodeRuneInString(s); first == same && len(s) >= 3 && len(symbol) >= 3 && distance(symbol, s) == 1 && !changed(symbol, s) {
			return s, true
		}
	}
	return "", false
}

// changed reports whether two symbols of the same length differ in more than the order of
// their letters.
func changed(a, b string) bool {
	letters := func(s string) []byte { return slices.Sorted(slices.Values([]byte(s))) }
	return len(a) == len(b) && !slices.Equal(letters(a), letters(b))
}
