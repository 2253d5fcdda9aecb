// Package thermometer says how far the thermometers of a bench may be out: the limits of
// error that standards and makers state for a sensor as it is sold. A study may name one in
// the place of the tolerance of a temperature.
//
// Not modelled: what an instrument adds to its sensor (the cold junction of a thermocouple
// 0.5 to 1 K, from memory), self-heating, where the sensor sits, and calibration: two
// sensors that are read in one stirred bath agree to 0.02 to 0.05 K (from memory).
//
// References, as they were read in public transcriptions:
//
//	[1] IEC 60751, Industrial platinum resistance thermometers and platinum temperature sensors
//	[2] IEC 60584-1, Thermocouples, EMF specifications and tolerances
//	[3] ASTM E230, Standard specification for temperature-electromotive force tables
package thermometer
