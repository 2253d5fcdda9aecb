package hazard

// Material is what blades or a shroud are made of.
type Material int

// The materials.
const (
	MaterialNotKnown Material = iota
	Polycarbonate
	ABS
	Nylon
	GlassFilledNylon
	Wood
	CarbonComposite
	Aluminium
	Steel
	PrintedPLA
	PrintedPETG
	PrintedABS
	materialCount = iota
)

// Properties is what the cautions need to know of a material. Its zero value says
// nothing.
type Properties struct {
	Density   float64 // kg/m³
	Strength  float64 // tensile strength in its weakest direction of use, Pa
	Softening float64 // temperature at which it loses its shape under light load, K; 0: higher than air here gets
	Printed   bool    // built up layer by layer
	Source    string  // where the numbers come from
}

const celsius = 273.15

// Whence the numbers of materials come.
const (
	moulded = "middle of what handbooks and data sheets of plastics give, from memory"
	textual = "textbook value, from memory"
	printed = "across the layers, low end of 15 to 40 MPa; softening at glass transition; reviews of printed PLA such as Polymers 14 (2022) 886, numbers from memory"
)

// materials holds word and properties of each material. Nylon is moist, as in room
// air; wood is hardwood along the grain; the composite is woven carbon in epoxy, not
// filled nylon.
var materials = [materialCount]struct {
	word string
	Properties
}{
	MaterialNotKnown: {word: "not known"},
	Polycarbonate:    {"polycarbonate", Properties{1200, 60e6, 130 + celsius, false, moulded}},
	ABS:              {"ABS", Properties{1050, 40e6, 95 + celsius, false, moulded}},
	Nylon:            {"nylon", Properties{1140, 50e6, 70 + celsius, false, moulded}},
	GlassFilledNylon: {"glass-filled nylon", Properties{1370, 100e6, 200 + celsius, false, moulded}},
	Wood:             {"wood", Properties{700, 80e6, 0, false, textual}},
	CarbonComposite:  {"carbon composite", Properties{1550, 500e6, 110 + celsius, false, textual}},
	Aluminium:        {"aluminium", Properties{2700, 250e6, 0, false, textual}},
	Steel:            {"steel", Properties{7850, 350e6, 0, false, textual}},
	PrintedPLA:       {"printed PLA", Properties{1240, 15e6, 55 + celsius, true, printed}},
	PrintedPETG:      {"printed PETG", Properties{1270, 15e6, 75 + celsius, true, printed}},
	PrintedABS:       {"printed ABS", Properties{1050, 15e6, 95 + celsius, true, printed}},
}

// Materials returns every material that has properties, in the order of the
// constants.
func Materials() []Material {
	list := make([]Material, 0, materialCount-1)
	for m := MaterialNotKnown + 1; m < materialCount; m++ {
		list = append(list, m)
	}
	return list
}

// String returns the material as written in studies.
func (m Material) String() string {
	if m < 0 || m >= materialCount {
		m = MaterialNotKnown
	}
	return materials[m].word
}

// Properties returns what is known of the material.
func (m Material) Properties() Properties {
	if m < 0 || m >= materialCount {
		m = MaterialNotKnown
	}
	return materials[m].Properties
}
