package asked

import (
	"strings"
	"sync"
)

// conceptWords are words that mean much the same to a question. A word may have
// several concepts; endings such as -s, -ing and -ed need not be listed.
var conceptWords = map[string]string{
	// Questions and their tone.
	"ask":    "what which whats wich wat whatever",
	"when":   "when whens date date dates day",
	"why":    "why whys reason reasons because explain point purpose reasoning logic thinking rationale sense idea behind justify justification how-come",
	"permit": "may might allowed allow permit permitted permissible ok okay alright fine harm harmful forbidden acceptable reasonable sensible unwise wise daft stupid silly mad crazy bad idea safe risky advisable naughty legal",
	"should": "should shall ought must better supposed meant recommend recommended advise advice",
	"please": "please pls kindly svp bitte",
	"greet":  "hi hello hey hiya greetings yo hallo ola salut morning evening",
	"help":   "help helpful guide instruction instructions manual tutorial menu command commands option options function functions feature features capabilities capable tour examples bot robot computer machine program assistant chat app chatbot type use using work works",
	"thank":  "thanks thank thankyou cheers ta thx merci danke gracias obrigado grazie tysm appreciated obliged grateful bless",
	"praise": "great perfect brilliant awesome cool super nice lovely ace fab legend splendid capital excellent wonderful sound sweet mint champion champ prima nickel top star gent grand magic superb marvellous fantastic wicked sorted noted understood clear gotcha roger",
	"bye":    "bye goodbye cheerio later laters farewell cya ciao goodnight tschuss adieu doei",

	// The plan.
	"ride":     "ride rides bike bikes bicycle cycle pedal roll spin turbo saddle riding cycling rollers",
	"session":  "session workout training train exercise programme program training sesh trainings set",
	"plan":     "plan schedule overview outline planning agenda schema layout programme planification timetable card menu",
	"show":     "show see list print view display send write lay read give look",
	"whole":    "whole full complete entire all every each everything total detail day-by-day",
	"taper":    "taper tapering tapers tapered tapir polishing affutage unload unloading sharpening",
	"easeoff":  "ease easing easier reduce reducing reduction cutting wind winding diminish lighter lighten lower less back backing taper tapering drop dropping descend scale",
	"start":    "start begin commence kick beginning onset first starting",
	"long":     "long longer length lengthen short shorter shorten duration enough last lasts suffice sufficient extend stretch generous size",
	"volume":   "hours hour volume minutes load total amount altogether sum add adds weekly saddle-time hrs mileage kilometres miles km together",
	"count":    "many much number count figure sum add adds total",
	"effort":   "hard easy rpe power heart zone watt pulse intensity effort pace steady tempo threshold maximum bpm exertion intense gently feel force rhythm cadence ftp vo2 gas gasping strong soft hr",
	"define":   "mean meaning define definition explain stand stands called exactly describe abbreviation term word understand",
	"openers":  "opener openers sprints accelerations bursts strides",
	"hardride": "interval intervals chaingang group bunch club hills sprint vo2 smash reps efforts repetitions hammer",
	"rest":     "rest resting off free recovery sofa couch feet day-off break pause repose",
	"move":     "move swap shift switch change instead postpone replace reschedule displace rearrange juggle transfer turn",
	"quiz":     "right correct true really sure sensible",

	// Races.
	"race":    "race event competition crit criterium tt fondo sportive contest raceday start number course peloton bunch",
	"next":    "next upcoming coming nearest following soonest closest first nxt soon ahead",
	"until":   "until till til before left away off remain remaining countdown sleeps nights go",
	"list":    "list all entered registered signed down entries events calendar entry enrolled",
	"letter":  "priority priorities prio category letter letters importance ranked",
	"season":  "season peak peaks year summer apart worth close important classify upgrade downgrade bunched spread clash crowded main goal goals target",
	"add":     "add enter entered register sign signed join put new got book booked inscribe inscribed subscribe enrol note pencil stick chuck entry",
	"after":   "after afterwards following post recovery recover since over done behind once",
	"morning": "breakfast warmup warm-up warming alarm wake arrive countdown kit pack bring routine leave checklist early rollers porridge alarm-clock toilet loo number drive rise up",
	"form":    "fresh fitness fit form faster shape rested peak sharp freshness unfit condition gain detrain rusty stale ready sharpness performance stronger weaker",
	"lose":    "lose losing lost loss disappear fade vanish leak shrink drop decline destroy waste soft",
	"win":     "won win winner winning champion gained podium result results",

	// What happened, what was done.
	"missed": "missed miss skip skipped overslept bail bailed forgot forgotten abandon abandoned failed ditched neglected omitted flaked binned sacked sauté",
	"makeup": "makeup catch compensate double replace repeat recuperate repair squeeze cram",
	"not":    "not never no cannot couldnt didnt nothing none nor without",
	"told":   "rode did done finished completed trained logged went smashed spun cycled ridden rolled made managed pedaled pedalled nailed ticked",
	"usual":  "usual usually typical typically normal normally regular regularly routine ordinary habit habitual always generally standard pattern rhythm rule",
	"felt":   "feel felt feeling feels",
	"log":    "log logged record book note diary",

	// The body.
	"ill":    "sick ill cold flu unwell cough virus infection covid throat nose bug influenza poorly sniffle sniffles sneezing snotty sinus tonsillitis bronchitis lurgy bunged sneeze runny blocked catarrh phlegm hoarse stuffed congested grippe germ bacteria tonsils earache feverish shivery hay-fever hayfever nursery contagious",
	"fever":  "fever temperature temp shivers chills sweats thermometer",
	"gut":    "stomach tummy gastro vomit vomiting vomited puke puking nausea diarrhoea diarrhea threw throwing bathroom kebab shrimp food-poisoning belly gut guts",
	"better": "better well recovered healthy cleared gone again over",
	"hurt":   "hurt hurts pain painful sore ache aching injured injury strain strained sprain sprained twisted pulled tear torn niggle crash crashed swollen tendon broke broken bruise bruised graze grazed scraped scrape scratch scratches twinge stiff cramp tweak tweaked pinch inflamed irritated rolled slipped fell fallen fall tumble limp rash scabby puffy tendinitis sciatica sciatic wound blister numb grumble grumbling gyp tight",
	"body":   "knee back calf hamstring achilles wrist shoulder hip ankle neck foot thigh elbow shin groin hand toe rib quad buttock finger thumb spine glute kneecap forearm arm skin muscle tendon palm palms bum",
	"danger": "chest faint fainted fainting breathe breathing breath collapsed unconscious dizzy concussion concussed confused palpitations blood blackout blacked flutter numbness slurring slurred seizure jaw blue",
	"head":   "head helmet skull",
	"heart":  "heart ticker pulse heartbeat",
	"flat":   "flat heavy tired dead sluggish fatigue fatigued knackered exhausted cooked lead empty drained weary slow lethargic shattered wooden legless dull rubbish wrecked spent weak lazy leaden concrete cement jelly treacle cotton toast cooked fried stale zapped blocked bleh snap punch sting spark pop zip",
	"legs":   "leg legs thigh quads pins",
	"sleep":  "sleep slept nap bed insomnia awake asleep bedtime sleepless kip snooze doze siesta night nights dream pillow mattress wink tired wakeful shut-eye lie-in sheep",
	"nerves": "nerves nervous anxious anxiety stress stressed panic scared afraid fear worry worried angst",

	// Food, medicine, strength.
	"food":   "eat food carb carbohydrate gel drink pasta rice diet nutrition meal dinner supper lunch weight calories protein fuel fuelling snack banana oats porridge breakfast sodium salt electrolytes energy bread toast muesli cereal pizza pie cake chips burger chocolate sugar honey jam cheese noodles potato potatoes vegetables fruit salad soup curry meat chicken fish egg eggs beans sandwich biscuit biscuits crisps scran chippy kilo kilos kg gram grams belly hungry starving hunger appetite stomach digest gingerbread flapjack jelly sweets dumplings fat sausage yoghurt milk nuts raisins dates maltodextrin isotonic squash vegan vegetarian pudding dessert quinoa feed eating",
	"drinks": "coffee caffeine beer alcohol water hydrate hydration bottle wine stout tea juice cola coke brew espresso pint pints bidon thirst thirsty lemonade whisky gin champagne",
	"gym":    "gym weights strength squat deadlift lift lifting core pilates lunge barbell kettlebell press plank dumbbell dumb-bells abs abdominals sit-ups press-ups push-ups pull-ups bench musculation plyometrics plyo crossfit bodypump pump studio resistance reps lunges gymnasium gainage trx hyrox leg-press box-jumps jumps stability",
	"drug":   "ibuprofen paracetamol painkiller aspirin antibiotic antibiotics inhaler tablet pill medicine medication syrup iron magnesium supplement antihistamine spray creatine drug doping banned dose asthma cortisone ventolin salbutamol steroid vitamin vaccine vaccination decongestant puffer bicarb bicarbonate beta-alanine beetroot melatonin prescription prescribed pharmacist chemist cream ointment drops codeine omeprazole statin thyroxine blood-pressure amoxicillin sachets lozenge lozenges zinc anti-inflammatory cbd ketones collagen bisoprolol injection jab pills naproxen diclofenac medicines",
	"doctor": "doctor doc gp physio physiotherapist hospital nurse",

	// Away.
	"away":    "away holiday vacation travel trip flying flight abroad camping busy hotel town conference visiting offline unavailable caravan cruise airport plane train ferry beach island seaside delegation business deplacement out tour camper abroad honeymoon",
	"event":   "wedding exam exams funeral christening baptism birthday graduation party confirmation concert festival school meeting appointment dentist shift nights parents conference workshop interview ceremony anniversary barbecue bbq recital match",
	"nobike":  "without no workshop repair mechanic garage shop service stolen broken",
	"sport":   "run running swim swimming hike hiking walk football footie rugby tennis golf yoga climbing ski skiing surf surfing kayak rowing badminton squash basketball volleyball netball cricket bowls dance dancing skating trampoline trampolining paintball jog jogging parkrun marathon triathlon spinning mtb mountainbike mountainbiking bouldering judo karate boxing paddle sauna massage gardening moving furniture boxes boxing five-a-side",
	"social":  "lads mates friends friend mate group club bunch girls buddies colleagues team clubmates neighbour cousin brother sister niece nephew kids children dad mum wife husband girlfriend boyfriend",
	"block":   "block overload camp overreach overreaching surcharge shock big heavy bigger massive monster cram push percent 20% 30% deep deeper build supercompensation pile harder more extra increase increased mega load loading",
	"team":    "riders athletes roster squad everyone everybody anyone anybody protégés juniors coureurs gang charges youngsters who whos whose which them lot mine lads",
	"export":  "ics calendar export phone download sync synchronise synchronize google outlook import subscribe feed link pdf diary app telephone appointments reminders file mobile handy ical agenda spreadsheet watch",
	"weather": "weather rain wind sunny forecast storm snow temperature umbrella",
	"gear":    "tyres tyre tire tires gear gears puncture wheels wheel chain saddle price cost costs helmet pressure tubeless brake brakes bracket lube derailleur frame cassette carbon pedals shoes shorts jersey wheelset sprocket chainring oil mudguard park parking",
	"chatter": "joke poem song movie president football politics capital bitcoin recipe homework essay translate sonnet story riddle married girlfriend age old name birthday love dog cat marry pirate banana taxes invoice password instructions prompt rules ignore disregard forget pretend system hack secret developer stupid useless idiot dumb fool",
	"insult":  "stupid useless idiot dumb fool rubbish shit crap moron",
	"days":    "monday tuesday wednesday thursday friday saturday sunday weekend",
	"mine":    "i me my mine myself",
}

// concepts are the concepts of each word.
var concepts = sync.OnceValue(func() map[string][]string {
	out := map[string][]string{}
	for name, list := range conceptWords {
		for w := range wordSet(list) {
			out[w] = append(out[w], name)
		}
	}
	for _, list := range out {
		sortStrings(list)
	}
	return out
})

// meanings are the concepts of a word, as it stands or without its ending.
func meanings(w string) []string {
	all := concepts()
	if list, ok := all[w]; ok {
		return list
	}
	for _, stem := range stems(w) {
		if list, ok := all[stem]; ok {
			return list
		}
	}
	return nil
}

// stems are what a word may be without its ending.
func stems(w string) []string {
	var out []string
	for _, end := range []struct{ cut, put string }{{"ies", "y"}, {"es", ""}, {"s", ""}, {"ing", ""}, {"ing", "e"}, {"ied", "y"}, {"ed", ""}, {"d", ""}, {"er", ""}, {"ly", ""}} {
		if stem, ok := strings.CutSuffix(w, end.cut); ok && len(stem) >= 3 {
			out = append(out, stem+end.put)
			if n := len(stem); end.put == "" && stem[n-1] == stem[n-2] {
				out = append(out, stem[:n-1])
			}
		}
	}
	return out
}

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
