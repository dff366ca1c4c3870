package scenarios

// exerciseFile is a whole file; see [rule] for the tags.
type exerciseFile struct {
	Title    string   `key:"title" required:"true" runes:"80" doc:"Title shown to the trainee."`
	Briefing string   `key:"briefing" required:"true" runes:"4000" prose:"true" doc:"What the trainee is told before the start."`
	Goals    []string `key:"goals" items:"0,12" runes:"200" absent:"none are listed" doc:"What the trainee should learn, a sentence each."`
	Trains   []string `key:"trains" items:"0,8" runes:"160" absent:"nothing is said of standards" doc:"What of a published standard of competence it supports practice towards, a phrase each; it replaces no field time."`
	Seed     int      `key:"seed" min:"0" max:"9007199254740991" default:"1" doc:"Seed of everything left to chance, the sea floor included."`
	Start    string   `key:"start" format:"date-time" runes:"40" default:"2031-06-01T09:00:00Z" doc:"Date and time of the start, as in RFC 3339."`

	Place       placeSection       `key:"place" required:"true" doc:"Where the world lies on the globe."`
	Sea         seaSection         `key:"sea" doc:"The water and the weather."`
	Seabed      seabedSection      `key:"seabed" required:"true" doc:"The true sea floor."`
	Vessel      vesselSection      `key:"vessel" doc:"The vessel."`
	Tow         towSection         `key:"tow" doc:"Cable, towed body (the fish) and winch."`
	Instruments instrumentsSection `key:"instruments" doc:"Errors of the instruments; 0 is perfect."`
	Sonar       sonarSection       `key:"sonar" required:"true" doc:"The side-scan sonar and its settings."`
	Effects     effectsSection     `key:"effects" doc:"What spoils the record; each is off unless given."`
	Lines       []lineSection      `key:"lines" required:"true" items:"1,256" doc:"The survey lines."`
	Plan        planSection        `key:"plan" required:"true" doc:"How the lines are run."`
	Desk        deskSection        `key:"desk" doc:"What the surveyor has entered at the start."`
	Score       scoreSection       `key:"score" doc:"What counts for the score."`
	Help        helpSection        `key:"help" doc:"What help the trainee has; but for the helmsman it changes no result."`
	Events      []eventSection     `key:"events" items:"0,64" absent:"nothing does" doc:"What goes wrong on purpose, each at its time or place; chance in it is of the seed, and moves nothing else."`
	Snags       []snagSection      `key:"snags" items:"0,64" absent:"there are none" doc:"Pots with buoys, whose lines foul a tow that comes across them."`
	Traffic     []trafficSection   `key:"traffic" items:"0,16" absent:"there is none" doc:"Other vessels on straight courses."`
}
