package asked

import (
	"strings"
	"sync"
)

// conceptWords are words that mean much the same to a question. A word may have
// several concepts.
var conceptWords = map[string]string{
	"ask":      "what which whats",
	"when":     "when whens date day begin begins start starts",
	"start":    "start starts started starting begin begins beginning kick kicks commence",
	"ride":     "ride rides riding bike cycle cycling pedal spin turbo",
	"session":  "session sessions workout workouts training train exercise programme program trainings",
	"plan":     "plan plans schedule overview calendar programme program outline planning agenda",
	"taper":    "taper tapering tapers tapered ease easing unload reduce reduction reducing cutting wind",
	"long":     "long longer length short shorter duration many far",
	"volume":   "hours hour volume minutes load total amount altogether time hrs weekly",
	"permit":   "can may could allowed ok permitted okay alright allow mind should shall",
	"why":      "why reason because explain point purpose reasoning logic thinking understand",
	"effort":   "hard easy rpe power heart zone zones watts pulse intensity effort pace steady tempo threshold max maximum bpm exertion intense gently",
	"define":   "mean means meaning define definition explain",
	"race":     "race races racing raced event events competition competitions crit criterium tt fondo sportive tour contest raceday startline",
	"list":     "list all entered registered signed down calendar",
	"missed":   "missed miss skipped skip skipping overslept bailed forgot forgotten lost abandoned failed ditched dropped blew didnt",
	"makeup":   "makeup catch compensate double replace make recover",
	"ill":      "sick ill cold fever flu unwell cough virus infection covid throat nose bug vomiting nausea influenza poorly sniffle sniffles sneezing snotty shivers sinus tonsillitis bronchitis",
	"better":   "better well recovered healthy cleared gone",
	"hurt":     "hurt hurts pain painful sore ache aches aching injured injury strain strained sprain sprained twisted pulled tear niggle crash crashed swollen tendon broke broken bruised",
	"body":     "knee knees back calf hamstring achilles wrist shoulder hip ankle neck foot thigh elbow shin groin saddle hand hands toe ribs quad quads",
	"danger":   "chest faint fainted fainting breathe breathing breath collapsed passed unconscious dizzy heart concussion concussed head",
	"away":     "away holiday holidays vacation travel travelling traveling trip flying flight abroad camping busy wedding exam exams hotel town conference visiting moving offline unavailable",
	"season":   "season priority peak peaks important apart worth close classify upgrade downgrade",
	"block":    "block overload camp overreach overreaching volume extra build building percent heavy bigger",
	"flat":     "flat heavy tired dead sluggish fatigued fatigue knackered exhausted cooked lead empty drained weary slow lethargic shattered stale wooden blocked legless dull rubbish wrecked spent weak lazy",
	"legs":     "legs leg",
	"after":    "after afterwards following post recovery recover since",
	"morning":  "morning breakfast warmup warm alarm wake arrive countdown kit pack bring routine leave checklist",
	"gym":      "gym weights strength squats squat deadlift deadlifts lift lifting core pilates lunges fitness barbell kettlebell press planks",
	"sleep":    "sleep slept nap naps bed insomnia awake sleeping asleep bedtime jet sleepless",
	"food":     "eat eating food carbs carb carbohydrate carbohydrates gel gels drink drinking pasta rice diet nutrition coffee caffeine beer alcohol water hydrate hydration bottle bottles meal meals dinner supper lunch weight calories protein fuel fuelling fueling beetroot snack bananas oats porridge breakfast sodium salt electrolytes wine energy",
	"form":     "fresh fitness fit form fast faster ready shape rested peak sharp freshness unfit condition gain gains detrain",
	"lose":     "lose losing lost loss",
	"add":      "add enter entered register registered sign signed join put new got entry booked",
	"team":     "riders rider team squad athletes athlete roster everyone everybody anyone",
	"export":   "ics calendar export phone download sync app google outlook import subscribe",
	"drug":     "ibuprofen paracetamol painkiller painkillers aspirin antibiotics antibiotic inhaler tablet tablets pill pills medicine medicines medication syrup iron magnesium supplement supplements antihistamine antihistamines spray creatine drug drugs doping banned dose asthma cortisone ventolin salbutamol anti steroids vitamin vitamins vaccine decongestant",
	"thank":    "thanks thank cheers ta great perfect brilliant awesome cool super nice lovely ace fab legend appreciated",
	"hello":    "hi hello hey morning hiya greetings yo help start",
	"told":     "rode did done finished completed trained logged went smashed spun cycled",
	"usual":    "usual usually typical typically normal normally week every each regular routine",
	"weather":  "weather rain tyres tyre tire gear gears puncture saddle wheel wheels bike joke football president chain price cost hotel poem capital movie song bitcoin helmet pressure tubeless politics",
	"compare":  "compare longer shorter enough better options option",
	"rest":     "rest resting off free recovery day",
	"hardride": "hard intervals interval chaingang group bunch club hills sprint sprints vo2 smash smashing",
	"move":     "move swap shift switch change instead postpone replace",
	"less":     "less fewer reduced cut dropped lower more",
	"next":     "next upcoming coming nearest following",
	"count":    "many long until till days weeks sleeps go left",
	"felt":     "feel feels feeling felt",
	"mine":     "i me my mine myself",
}

// concepts are the concepts of each word.
var concepts = sync.OnceValue(func() map[string][]string {
	out := map[string][]string{}
	for name, list := range conceptWords {
		for _, w := range strings.Fields(list) {
			out[w] = append(out[w], name)
		}
	}
	for _, list := range out {
		sortStrings(list)
	}
	return out
})

// moreWords are known and mean nothing by themselves.
const moreWords = `the a an and or but not i you he she we they me my your his her our their it this that these those there here to of in on at by for from with about into than then so too very just only
	be is are was were been being am do does did done have has had will would should shall can could may might must need want like know think see look tell say give take get go going come make let keep
	day days week weeks month months morning evening night afternoon hour hours minute minutes min today tomorrow yesterday tonight now soon later before after until till again still already yet ever never
	always often please thanks yes no good bad best worse worst big small little much many more less most least few some any all both each every other another same different new old first last next
	people friend friends mate mates coach partner wife husband kids family boss office work school something anything nothing everything someone anyone really actually maybe perhaps probably quite
	early late half quarter twice once double extra bit lot kind sort stuff thing things way place home house road roads hill hills mountain climb climbs flat track trail gravel forest city england summer winter spring autumn
	loop house mouse class close price place light right might sight tight eight weigh weight height three five seven nine eleven twelve thirteen fourteen fifteen twenty thirty forty fifty lesson lessons reason season person`

// dateWords can stand in a date.
const dateWords = `monday tuesday wednesday thursday friday saturday sunday january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec
	today tomorrow yesterday tonight weekend week weeks day days fortnight month months next last this coming on in the of past after before from now ago time morning evening night afternoon`
