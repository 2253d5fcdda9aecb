package study

// document is a study file as it is written: every key that may be given, and
// what stands behind it. The tags of a field say
//
//	mapstructure  its key
//	input         the model.Input that the value sets; none: read by its own code
//	need          that it must be given, and what it looks like
//	like          what it looks like, if it need not be given
type document struct {
	Study   *leaf       `mapstructure:"study" need:"study: booth"`
	About   *leaf       `mapstructure:"about"`
	Room    roomPart    `mapstructure:"room" like:"room: {air: 22 °C}"`
	Heat    heatPart    `mapstructure:"heat" need:"heat: {load: 200 W}"`
	Coolant coolantPart `mapstructure:"coolant" like:"coolant: {fluid: water, flow: 4 L/min}"`
	Cores   []corePart  `mapstructure:"cores" need:"cores: [{name: cube, face: [92 mm, 88 mm], fin_depth: 34 mm}, …]"`
	Fans    []fanPart   `mapstructure:"fans" need:"fans: [{name: calm, rated_speed: 1500 rpm, …}, …]"`
	Setups  []setupPart `mapstructure:"setups" need:"setups: [{name: small, core: cube, fan: calm}, …]"`
	Sweep   sweepPart   `mapstructure:"sweep" need:"sweep: {challenger: small, reference: large}"`
	Doubt   doubtPart   `mapstructure:"doubt" like:"doubt: {draws: 2000}"`
}

type roomPart struct {
	Air      *leaf `mapstructure:"air" input:"air_temperature"`
	Altitude *leaf `mapstructure:"altitude" input:"altitude"`
	Humidity *leaf `mapstructure:"humidity" input:"humidity"`
	Listener *leaf `mapstructure:"listener" input:"listener_distance"`
	Operator *leaf `mapstructure:"operator" input:"operator_distance"`
	Session  *leaf `mapstructure:"session" input:"session_duration"`

	Field       *leaf `mapstructure:"field"`
	Surface     *leaf `mapstructure:"surface" input:"room_surface"`
	Absorption  *leaf `mapstructure:"absorption" input:"room_absorption"`
	Directivity *leaf `mapstructure:"directivity" input:"room_directivity"`
}

type heatPart struct {
	Load  *leaf `mapstructure:"load" input:"heat_load" need:"load: 200 W"`
	Plate *leaf `mapstructure:"plate" input:"plate_resistance"`
	Pump  *leaf `mapstructure:"pump" input:"pump_power"`
}

type coolantPart struct {
	Fluid        *leaf `mapstructure:"fluid"`
	GlycolShare  *leaf `mapstructure:"glycol_share" input:"glycol_share"`
	Flow         *leaf `mapstructure:"flow" input:"coolant_flow"`
	PumpHead     *leaf `mapstructure:"pump_head" input:"pump_head"`
	PumpFreeFlow *leaf `mapstructure:"pump_free_flow" input:"pump_free_flow"`
	PumpExponent *leaf `mapstructure:"pump_exponent" input:"pump_exponent"`
	LoopDrop     *leaf `mapstructure:"loop_drop" input:"loop_drop"`
	LoopDropFlow *leaf `mapstructure:"loop_drop_flow" input:"loop_drop_flow"`
}

// corePart is a core. The louvers come after the fin height, which takes them
// along.
type corePart struct {
	Name             *leaf   `mapstructure:"name" need:"name: cube"`
	Face             []*leaf `mapstructure:"face" need:"face: [92 mm, 88 mm], along the tubes and across"`
	FinDepth         *leaf   `mapstructure:"fin_depth" input:"fin_depth"`
	OverallThickness *leaf   `mapstructure:"overall_thickness" input:"overall_thickness"`
	FinDensity       *leaf   `mapstructure:"fin_density" input:"fin_density"`
	FinHeight        *leaf   `mapstructure:"fin_height" input:"fin_height"`
	FinThickness     *leaf   `mapstructure:"fin_thickness" input:"fin_thickness"`
	FinConductivity  *leaf   `mapstructure:"fin_conductivity" input:"fin_conductivity"`
	Fins             *leaf   `mapstructure:"fins"`
	Metal            *leaf   `mapstructure:"metal"`
	LouverPitch      *leaf   `mapstructure:"louver_pitch" input:"louver_pitch"`
	LouverLength     *leaf   `mapstructure:"louver_length" input:"louver_length"`
	LouverAngle      *leaf   `mapstructure:"louver_angle" input:"louver_angle"`
	StripLength      *leaf   `mapstructure:"strip_length" input:"strip_length"`
	TubeHeight       *leaf   `mapstructure:"tube_height" input:"tube_height"`
	TubeWall         *leaf   `mapstructure:"tube_wall" input:"tube_wall"`
	TubeConductivity *leaf   `mapstructure:"tube_conductivity" input:"tube_conductivity"`
	TubeRoughness    *leaf   `mapstructure:"tube_roughness" input:"tube_roughness"`
	PortDiameter     *leaf   `mapstructure:"port_diameter" input:"port_diameter"`
	Passes           *leaf   `mapstructure:"passes" input:"passes"`
	Arrangement      *leaf   `mapstructure:"arrangement"`
	Routing          *leaf   `mapstructure:"routing"`
	Stacked          *leaf   `mapstructure:"stacked" input:"stacked"`
	StackFeed        *leaf   `mapstructure:"stack_feed"`
}

type fanPart struct {
	Name            *leaf `mapstructure:"name" need:"name: calm"`
	RatedSpeed      *leaf `mapstructure:"rated_speed" input:"rated_speed"`
	FreeAirFlow     *leaf `mapstructure:"free_air_flow" input:"free_air_flow"`
	ShutOffPressure *leaf `mapstructure:"shut_off_pressure" input:"shut_off_pressure"`
	RatedPower      *leaf `mapstructure:"rated_power" input:"rated_power"`
	RatedSound      *leaf `mapstructure:"rated_sound" input:"rated_sound"`
	RatedDensity    *leaf `mapstructure:"rated_density" input:"rated_density"`
	TopSpeed        *leaf `mapstructure:"top_speed" input:"top_speed"`
	CurveExponent   *leaf `mapstructure:"curve_exponent" input:"curve_exponent"`
	RotorDiameter   *leaf `mapstructure:"rotor_diameter" input:"rotor_diameter"`
	DriveVoltage    *leaf `mapstructure:"drive_voltage" input:"drive_voltage"`
	Motor           *leaf `mapstructure:"motor"`
	MotorEfficiency *leaf `mapstructure:"motor_efficiency" input:"motor_efficiency"`
	ElectronicsLoss *leaf `mapstructure:"electronics_loss" input:"electronics_loss"`
	Blades          *leaf `mapstructure:"blades" input:"blades"`

	Curve []pointPart `mapstructure:"curve" like:"curve: [{flow: 0 m3/h, pressure: 40 Pa}, {flow: 60 m3/h, pressure: 25 Pa}, {flow: 110 m3/h, pressure: 0 Pa}]"`

	SoundExponent *leaf         `mapstructure:"sound_exponent" input:"sound_exponent"`
	SoundDoubt    *leaf         `mapstructure:"sound_doubt" input:"sound_doubt"`
	RatedOctaves  []*leaf       `mapstructure:"rated_octaves" like:"rated_octaves: [48, 51, 50, 46, 42, 38, 33, 27]"`
	SoundReadings []readingPart `mapstructure:"sound_readings" like:"sound_readings: [{speed: 5000 rpm, level: 66 dBA}, {speed: 9000 rpm, level: 79 dBA}]"`

	Pitch             *leaf `mapstructure:"pitch" input:"pitch"`
	ThrustCoefficient *leaf `mapstructure:"thrust_coefficient" input:"thrust_coefficient"`
	PowerCoefficient  *leaf `mapstructure:"power_coefficient" input:"power_coefficient"`

	SpeedConstant         *leaf `mapstructure:"speed_constant" input:"speed_constant"`
	WindingResistance     *leaf `mapstructure:"winding_resistance" input:"winding_resistance"`
	NoLoadCurrent         *leaf `mapstructure:"no_load_current" input:"no_load_current"`
	MotorMostCurrent      *leaf `mapstructure:"motor_most_current" input:"motor_most_current"`
	ControllerEfficiency  *leaf `mapstructure:"controller_efficiency" input:"controller_efficiency"`
	ControllerIdlePower   *leaf `mapstructure:"controller_idle_power" input:"controller_idle_power"`
	ControllerMostCurrent *leaf `mapstructure:"controller_most_current" input:"controller_most_current"`
}

type pointPart struct {
	Flow     *leaf `mapstructure:"flow" need:"flow: 60 m3/h"`
	Pressure *leaf `mapstructure:"pressure" need:"pressure: 25 Pa"`
	Power    *leaf `mapstructure:"power"`
}

type readingPart struct {
	Speed *leaf `mapstructure:"speed" need:"speed: 5000 rpm"`
	Level *leaf `mapstructure:"level" need:"level: 66 dBA, at 1 m"`
}

type setupPart struct {
	Name *leaf `mapstructure:"name" need:"name: small"`
	Core *leaf `mapstructure:"core" need:"core: the name of one of the cores"`
	Fan  *leaf `mapstructure:"fan" need:"fan: the name of one of the fans"`
	Fans *leaf `mapstructure:"fans" input:"fans"`

	StoppedFans *leaf `mapstructure:"stopped_fans" input:"stopped_fans"`

	Placing   *leaf         `mapstructure:"placing"`
	Speed     *leaf         `mapstructure:"speed" input:"fan_speed"`
	Installed installedPart `mapstructure:"installed" like:"installed: {grille_loss: 0.8, leakage: 3 %}"`

	Build       buildPart       `mapstructure:"build" like:"build: {blade_material: nylon, wire_gauge: 14, wire_length: 0.6 m}"`
	Corrections correctionsPart `mapstructure:"corrections" like:"corrections: {air_film: 5 %, air_friction: -10 %}"`
}

type installedPart struct {
	GrilleLoss *leaf `mapstructure:"grille_loss" input:"grille_loss"`
	Leakage    *leaf `mapstructure:"leakage" input:"leakage"`
	HubShadow  *leaf `mapstructure:"hub_shadow" input:"hub_shadow"`
	Dust       *leaf `mapstructure:"dust" input:"dust"`
	SeriesLoss *leaf `mapstructure:"series_loss" input:"series_loss"`
	Shroud     *leaf `mapstructure:"shroud"`
}

type buildPart struct {
	BladeMaterial   *leaf `mapstructure:"blade_material"`
	Rotor           *leaf `mapstructure:"rotor"`
	HubRatio        *leaf `mapstructure:"hub_ratio" input:"hub_ratio"`
	FragmentMass    *leaf `mapstructure:"fragment_mass" input:"fragment_mass"`
	ShroudMaterial  *leaf `mapstructure:"shroud_material"`
	WireGauge       *leaf `mapstructure:"wire_gauge" input:"wire_gauge"`
	WireArea        *leaf `mapstructure:"wire_area" input:"wire_area"`
	WireLength      *leaf `mapstructure:"wire_length" input:"wire_length"`
	ConnectorRating *leaf `mapstructure:"connector_rating" input:"connector_rating"`
	SupplyRating    *leaf `mapstructure:"supply_rating" input:"supply_rating"`
	FuseRating      *leaf `mapstructure:"fuse_rating" input:"fuse_rating"`
	GuardOpening    *leaf `mapstructure:"guard_opening" input:"guard_opening"`
	GuardShape      *leaf `mapstructure:"guard_shape"`
	GuardDistance   *leaf `mapstructure:"guard_distance" input:"guard_distance"`
	Running         *leaf `mapstructure:"running"`
}

type correctionsPart struct {
	AirFilm             *leaf `mapstructure:"air_film" input:"air_film_correction"`
	AirFriction         *leaf `mapstructure:"air_friction" input:"air_friction_correction"`
	CoolantFilm         *leaf `mapstructure:"coolant_film" input:"coolant_film_correction"`
	CoolantViscosity    *leaf `mapstructure:"coolant_viscosity" input:"coolant_viscosity_correction"`
	CoolantConductivity *leaf `mapstructure:"coolant_conductivity" input:"coolant_conductivity_correction"`
	CoolantSpecificHeat *leaf `mapstructure:"coolant_specific_heat" input:"coolant_specific_heat_correction"`
	AirDensity          *leaf `mapstructure:"air_density" input:"air_density_correction"`
	AirViscosity        *leaf `mapstructure:"air_viscosity" input:"air_viscosity_correction"`
	AirConductivity     *leaf `mapstructure:"air_conductivity" input:"air_conductivity_correction"`
	AirSpecificHeat     *leaf `mapstructure:"air_specific_heat" input:"air_specific_heat_correction"`
	FanPressure         *leaf `mapstructure:"fan_pressure" input:"fan_pressure_correction"`
}

type sweepPart struct {
	Challenger *leaf             `mapstructure:"challenger" need:"challenger: the name of the setup whose inputs are swept"`
	Reference  *leaf             `mapstructure:"reference" need:"reference: the name of the setup it is measured against"`
	Metric     *leaf             `mapstructure:"metric"`
	Margin     *leaf             `mapstructure:"margin"`
	Maps       [][]*leaf         `mapstructure:"maps" like:"maps: [[fin_density, fin_depth], [face_area, fin_density]]"`
	Axes       []axisPart        `mapstructure:"axes" like:"axes: [{input: fin_density, list: [12 fpi, 16 fpi]}, …]"`
	Exclude    [][]conditionPart `mapstructure:"exclude" like:"exclude: [[{input: fin_density, above: 20 fpi}, {input: fin_depth, above: 30 mm}], …]"`
}

type axisPart struct {
	Input   *leaf   `mapstructure:"input" need:"input: fan_speed"`
	From    *leaf   `mapstructure:"from"`
	To      *leaf   `mapstructure:"to"`
	Steps   *leaf   `mapstructure:"steps"`
	Spacing *leaf   `mapstructure:"spacing"`
	List    []*leaf `mapstructure:"list" like:"list: [12 fpi, 16 fpi]"`
	Group   *leaf   `mapstructure:"group"`
}

type conditionPart struct {
	Input *leaf `mapstructure:"input" need:"input: fin_density"`
	Above *leaf `mapstructure:"above"`
	Below *leaf `mapstructure:"below"`
}

type doubtPart struct {
	Draws      *leaf           `mapstructure:"draws"`
	Designs    *leaf           `mapstructure:"designs"`
	Tolerances []tolerancePart `mapstructure:"tolerances" like:"tolerances: [{input: fin_density, within: 1 fpi}, …]"`
}

type tolerancePart struct {
	Input  *leaf `mapstructure:"input" need:"input: fin_density"`
	Setup  *leaf `mapstructure:"setup"`
	Within *leaf `mapstructure:"within" need:"within: 1 fpi, or within: 5 %"`
	Shape  *leaf `mapstructure:"shape"`
	Error  *leaf `mapstructure:"error"`
}
