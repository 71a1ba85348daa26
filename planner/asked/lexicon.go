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
	"permit": "may might allowed allow permit permitted permissible ok okay alright fine harm harmful forbidden acceptable reasonable sensible unwise wise daft stupid silly mad crazy bad idea safe risky advisable naughty legal fancy sneak asked tandem class opportunity tempted tempting invited invite wonder agree against problem mind object bother okay-if",
	"should": "should shall ought must better supposed meant recommend recommended advise advice",
	"please": "please pls kindly svp bitte",
	"greet":  "hi hello hey hiya greetings yo hallo ola salut morning evening",
	"help":   "help helpful guide instruction instructions manual tutorial menu command commands option options function functions feature features capabilities capable tour examples bot robot computer machine program assistant chat app chatbot type use using work works questions message answers answer serve person secretary human-being explainer understand start-out beginner newbie newcomer settings setting account privacy data delete password-reset language languages support contact updates ability services service offer offers purposes",
	"thank":  "thanks thank thankyou cheers ta thx merci danke gracias obrigado grazie tysm appreciated obliged grateful bless",
	"praise": "great perfect brilliant awesome cool super nice lovely ace fab legend splendid capital excellent wonderful sound sweet mint champion champ prima nickel top star gent grand magic superb marvellous fantastic wicked sorted noted understood clear gotcha roger",
	"bye":    "bye goodbye cheerio later laters farewell cya ciao goodnight tschuss adieu doei",

	// The plan.
	"ride":     "ride rides bike bikes bicycle cycle pedal roll spin turbo saddle riding cycling rollers",
	"session":  "session workout training train exercise programme program training sesh trainings set",
	"plan":     "plan schedule overview outline planning agenda schema layout programme planification timetable card menu picture glance rota final table fridge list lineup line-up run-in calendar-week scheme structure itinerary",
	"show":     "show see list print view display send write lay read give look",
	"whole":    "whole full complete entire all every each everything total detail day-by-day complete-week remaining rest-of day-for-day",
	"taper":    "taper tapering tapers tapered tapir polishing affutage unload unloading sharpening",
	"easeoff":  "ease easing easier reduce reducing reduction cutting wind winding diminish lighter lighten lower less back backing taper tapering drop dropping descend scale",
	"start":    "start begin commence kick beginning onset first starting",
	"long":     "long longer length lengthen short shorter shorten duration enough last lasts suffice sufficient extend stretch generous size",
	"volume":   "hours hour volume minutes load total amount altogether sum add adds weekly saddle-time hrs mileage kilometres miles km together",
	"count":    "many much number count figure sum add adds total",
	"effort":   "hard easy rpe power heart zone watt pulse intensity effort pace steady tempo threshold maximum bpm exertion intense gently feel force rhythm cadence ftp vo2 gas gasping strong soft hr",
	"define":   "mean meaning define definition explain stand stands called exactly describe abbreviation term word understand english",
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
	"letter":  "priority priorities prio category letter letters importance ranked class grade rating rank ranking status letters-a level a-race b-race c-race important main",
	"season":  "season peak peaks year summer apart worth close important classify upgrade downgrade bunched spread clash crowded main goal goals target between greedy single ten-weeks spacing gap enough-time plan-year overlap too-many ranking ambitious objective objectives targets double-peak overcrowded sensible-season cluster clumped bunch",
	"add":     "add enter entered register sign signed join put new got book booked inscribe inscribed subscribe enrol note pencil stick chuck entry",
	"after":   "after afterwards following post recovery recover since over done behind once morrow succeeding",
	"morning": "breakfast warmup warm-up warming alarm wake arrive countdown kit pack bring routine leave checklist early rollers porridge alarm-clock toilet loo number drive rise up warm warmed gun step leaving arriving sign-on signing flag start-line gates parking-time shower bib pin pinning safety-pins spare clock set",
	"form":    "fresh fitness fit form faster shape rested peak sharp freshness unfit condition gain detrain rusty stale ready sharpness performance stronger weaker engine detraining resistance endurance charge top capacity ability strength speed stamina freshly topform undertrained overtrained fitter fittest slower quicker quickly form-curve curve graph percent better worse expect",
	"lose":    "lose losing lost loss disappear fade vanish leak shrink drop decline destroy waste soft throw throwing throwaway melt melting evaporate erode gone wasted wither shrivel dwindle slip slipping rot",
	"win":     "won win winner winning champion gained podium result results",

	// What happened, what was done.
	"missed": "missed miss skip skipped overslept bail bailed forgot forgotten abandon abandoned failed ditched neglected omitted flaked binned sacked sauté skived skive skiving bunked swerved dodged shirked ducked chickened lapsed",
	"makeup": "makeup catch compensate double replace repeat recuperate repair squeeze cram",
	"not":    "not never no cannot couldnt didnt nothing none nor without",
	"told":   "rode did done finished completed trained logged went smashed spun cycled ridden rolled made managed pedaled pedalled nailed ticked clocked logged-it put-in accomplished knocked banged finished-off wrapped behind-me recorded put-down churned cruised pootled hammered ground slogged trundled whizzed ambled noodled spun-out",
	"usual":  "usual usually typical typically normal normally regular regularly routine ordinary habit habitual always generally standard pattern rhythm rule standard-week week-to-week weekly-pattern every each mostly alternating alternate rota shift shifts basic template",
	"felt":   "feel felt feeling feels struggled suffered enjoyed flew flying floated sang",
	"log":    "log logged record book note diary",

	// The body.
	"ill":    "sick ill cold flu unwell cough virus infection covid throat nose bug influenza poorly sniffle sniffles sneezing snotty sinus tonsillitis bronchitis lurgy bunged sneeze runny blocked catarrh phlegm hoarse stuffed congested grippe germ bacteria tonsils earache feverish shivery hay-fever hayfever nursery contagious ache-all achy caught ate eaten upset rough tested positive streaming brought sinusitis migraine hangover mussels oysters prawns chicken-pox pneumonia angina laryngitis sniffing snot croaky wheezy queasy nauseous bedridden recovering contaminated contagion sickness bunged-up stuffy swab norovirus rotavirus mumps measles shingles germs cystitis ear fevers",
	"fever":  "fever temperature temp shivers chills sweats thermometer",
	"gut":    "stomach tummy gastro vomit vomiting vomited puke puking nausea diarrhoea diarrhea threw throwing bathroom kebab shrimp food-poisoning belly gut guts",
	"better": "better well recovered healthy cleared gone again over",
	"hurt":   "hurt hurts pain painful sore ache aching injured injury strain strained sprain sprained twisted pulled tear torn niggle crash crashed swollen tendon broke broken bruise bruised graze grazed scraped scrape scratch scratches twinge stiff cramp tweak tweaked pinch inflamed irritated rolled slipped fell fallen fall tumble limp rash scabby puffy tendinitis sciatica sciatic wound blister numb grumble grumbling gyp tight slid kerb pull pulls shoe chafed chafing whiplash scab bite bitten stung wasp swelling tender tenderness throbs throbbing jarred wrenched strains stabbing clicks clicking popped locked stitches splinter haematoma grated gashed gash cut-finger inflammation bursitis itb cleat sprains dislocated stubbed bashed knocked knock banged whacked aches twinges nerve pinched",
	"body":   "knee back calf hamstring achilles wrist shoulder hip ankle neck foot thigh elbow shin groin hand toe rib quad buttock finger thumb spine glute kneecap forearm arm skin muscle tendon palm palms bum tooth collarbone clavicle kneecaps toes ribs elbows shins forearms jaw heel sole arch sacrum coccyx tailbone itb hamstrings hips ankles vertebra lumbar cheek chin nose-bone ligament meniscus patella adductor soleus trapezius buttocks sit-bone sitbones saddle-area",
	"danger": "chest faint fainted fainting breathe breathing breath collapsed unconscious dizzy concussion concussed confused palpitations blood blackout blacked flutter numbness slurring slurred seizure jaw blue breathless gasping-rest tight tightness stabbing crushing squeezing pressure radiating tingling numb-face drooping slur droop blurred blurry double-vision vomiting-after pounding-head unresponsive convulsion convulsions fit-seizure knocked-out passed passing out lips clammy cold-sweat cyanosed irregular skipping racing flutters palpitation syncope",
	"head":   "head helmet skull",
	"heart":  "heart ticker pulse heartbeat",
	"flat":   "flat heavy tired dead sluggish fatigue fatigued knackered exhausted cooked lead empty drained weary slow lethargic shattered wooden legless dull rubbish wrecked spent weak lazy leaden concrete cement jelly treacle cotton toast cooked fried stale zapped blocked bleh snap punch sting spark pop zip tank worn awful dreadful terrible horrible sludge mud sandbags bricks stone stones logs soggy stuffed fuzzy done-in beat beaten bushed pooped whacked flattened sore stiffness burn burning burned kaput broken smashed ruined punchless spark-less creaky wobbly jellyfish lifeless drag dragging crawl crawling sleepy-legs tiredness fatigue-legs batteries battery",
	"legs":   "leg legs thigh quads pins",
	"sleep":  "sleep slept nap bed insomnia awake asleep bedtime sleepless kip snooze doze siesta night nights dream pillow mattress wink tired wakeful shut-eye lie-in sheep baby tips midnight curtains earplugs woke wake waking ruin toss tossing tossed turned nod nodding dozing dozed drowsy bunk snoring snore jetlag jet-lag eyelids bedroom alarm-at sleepy tired-eyes sleeplessness melatonin rem lying lie",
	"nerves": "nerves nervous anxious anxiety stress stressed panic scared afraid fear worry worried angst",

	// Food, medicine, strength.
	"food":   "eat food carb carbohydrate gel drink pasta rice diet nutrition meal dinner supper lunch weight calories protein fuel fuelling snack banana oats porridge breakfast sodium salt electrolytes energy bread toast muesli cereal pizza pie cake chips burger chocolate sugar honey jam cheese noodles potato potatoes vegetables fruit salad soup curry meat chicken fish egg eggs beans sandwich biscuit biscuits crisps scran chippy kilo kilos kg gram grams belly hungry starving hunger appetite stomach digest gingerbread flapjack jelly sweets dumplings fat sausage yoghurt milk nuts raisins dates maltodextrin isotonic squash vegan vegetarian pudding dessert quinoa feed eating beetroot flapjacks tortilla wrap wraps burrito lasagne risotto couscous bagel bagels croissant pancake pancakes waffle waffles syrup maple peanut butter nutella spread spreads ham bacon salmon tuna tofu lentils lentil bean broccoli spinach cabbage onion onions garlic curry-night takeaway kebab-shop mcd fast-food fasting fasted gluten dairy lactose intolerance fibre fiber salty sweet sugary bars bar chews chew gummies gummy dextrose fructose mix powder-drink recovery-shake shake smoothie breakfast-bar cereal-bar snackbar stomach-full portion portions plate serving calories-burn kcal diet-plan keto carb-load carbload carboload carb-loading loading glycogen hydration rehydrate hunger-knock bonk bonking bonked icecream ice-cream yoghurts fridge kitchen cook cooking recipe-race menu-race mineral buffet",
	"drinks": "coffee caffeine beer alcohol water hydrate hydration bottle wine stout tea juice dram tipple nightcap cola coke brew espresso pint pints bidon thirst thirsty lemonade whisky gin champagne decaf latte cappuccino flask cup cups mug mugs glass glasses prosecco cider ale lager schnapps rum vodka cocktail cocktails smoothie squash-drink tonic soda fizzy milk-drink litre litres ml sip sips drinking drank drunk dehydrated dehydration",
	"gym":    "gym weights strength squat deadlift lift lifting core pilates lunge barbell kettlebell press plank dumbbell dumb-bells abs abdominals sit-ups press-ups push-ups pull-ups bench musculation plyometrics plyo crossfit bodypump pump studio resistance reps lunges gymnasium gainage trx hyrox leg-press box-jumps jumps stability ups band bands kettle ball kettleball bodyweight muscles muscle body circuit circuits planks curls rowing-machine hypertrophy sandbag med-ball crunches burpees calf-raises glutes bridges-exercise biceps triceps dips pull weightlifting weight-training powerlifting stretching foam-roller lifts plates rack trainer-gym lunging tyre-flips",
	"drug":   "ibuprofen paracetamol painkiller aspirin antibiotic antibiotics inhaler tablet pill medicine medication syrup iron magnesium supplement antihistamine spray creatine drug doping banned dose asthma cortisone ventolin salbutamol steroid vitamin vaccine vaccination decongestant puffer bicarb bicarbonate beta-alanine beetroot melatonin prescription prescribed pharmacist chemist cream ointment drops codeine omeprazole statin thyroxine blood-pressure amoxicillin sachets lozenge lozenges zinc anti-inflammatory cbd ketones collagen bisoprolol injection jab pills naproxen diclofenac medicines powder anti inflammatory beta blockers blocker dentist patch salve plaster hay pollen insulin diabetes epilepsy warfarin thinners pharmacy dosage capsule capsules nicotine nitrate nitrates injections dope anti-doping tested-positive course shot boosters booster anaesthetic anti-histamine cetirizine loratadine tramadol cortisol hormone contraceptive antidepressant eyedrops ointments probiotics omega turmeric ginseng echinacea paracetamols voltaren patches tums rennie antacid laxative viagra ritalin adhd levothyroxine metformin betablocker blood-thinner substance substances forbidden-list draught draughts sleeping-pill",
	"doctor": "doctor doc gp physio physiotherapist hospital nurse physician surgeon paramedic",

	// Away.
	"away":      "away holiday vacation travel trip flying flight abroad camping busy hotel town conference visiting offline unavailable caravan cruise airport plane train ferry beach island seaside delegation business deplacement out tour camper abroad honeymoon campsite tent hike-trip overseas city-break weekend-away off-grid boat narrowboat sailing sail ski-trip safari pilgrimage honeymooning retreat parents-in-law in-laws road-trip hitch flights layover bus coach-trip motorway stranded strike quarantine jury service-call oncall on-call shift-work engaged occupied promised inventory stocktake overtime double-shift",
	"event":     "wedding exam exams funeral christening baptism birthday graduation party confirmation concert festival school meeting appointment dentist shift nights parents conference workshop interview ceremony anniversary barbecue bbq recital match hen stag do reunion fete fair fête gig theatre opera cinema museum deadline inventory audit training-course seminar course-work night-out works-do christmas easter birthday-party shower-party jubilee retirement gala ball dinner-party meetings handover move moving-house removal plumber electrician delivery surgery operation scan mri check-up appointment-doctor jury court driving-test luncheon feast patio tiling plastering laying bridesmaid sixtieth ninetieth",
	"nobike":    "without no workshop repair mechanic garage shop service stolen broken rebuilt rebuild parts spare-part broken-frame frame-crack cracked-frame warranty loan lent borrowed van mechanic's bike-less stolen-bike",
	"sport":     "run running swim swimming hike hiking walk football footie rugby tennis golf yoga climbing ski skiing surf surfing kayak rowing badminton squash basketball volleyball netball cricket bowls dance dancing skating trampoline trampolining paintball jog jogging parkrun marathon triathlon spinning mtb mountainbike mountainbiking bouldering judo karate boxing paddle sauna massage gardening moving furniture boxes boxing five-a-side paintballing ballroom salsa zumba aerobics aqua canoe canoeing sup hockey handball frisbee archery horse-riding horse horseback bungee laser-tag spin-class spinclass bootcamp crossfit-class hula padel pickleball darts bowling ice-skating skate skateboard scramble orienteering duathlon treadmill elliptical stepper tug-of-war lawn mow mowing dig-garden shovel shovelling ladder paint painting wallpaper decorating logs wood-chopping chopping hoover spring-clean allotment tent",
	"social":    "lads mates friends friend mate group club bunch girls buddies colleagues team clubmates neighbour cousin brother sister niece nephew kids children dad mum wife husband girlfriend boyfriend son daughter toddler granddaughter grandson mother father in-laws guests visitors grandchildren grandkids fiancé fiancee flatmate boss clients pal pals chums mate's",
	"block":     "block overload camp overreach overreaching surcharge shock big heavy bigger massive monster cram push percent 20% 30% deep deeper build supercompensation pile harder more extra increase increased mega load loading bury dig hole deserve massacre slaughter punish thrash flog flogging empty crammed overdose surplus intensify intensified shock-week training-camp bump pile-up additional further harder-first camp-week load-up overloaded stack stacking mileage-week",
	"team":      "riders athletes roster squad everyone everybody anyone anybody protégés juniors coureurs gang charges youngsters who whos whose which them lot mine lads their athletes' lads' girls boys youth elites cadets masters pupils protege proteges clients members member them-all group whole-team squads riders' anybody's kids-team",
	"export":    "ics calendar export phone download sync synchronise synchronize google outlook import subscribe feed link pdf diary app telephone appointments reminders file mobile handy ical agenda spreadsheet watch cal calender agenda-app appointment entries alerts webcal feeds url qr attach upload email e-mail mail integrate integration planner organiser organizer laptop tablet-computer desktop android sheet csv",
	"weather":   "weather rain wind sunny forecast storm snow temperature umbrella heatwave hail thunder lightning thunderstorm fog mist ice icy frost degrees celsius climate sunshine sunscreen headwind tailwind gusts gusty",
	"gear":      "tyres tyre tire tires gear gears puncture wheels wheel chain saddle price cost costs helmet pressure tubeless brake brakes bracket lube derailleur frame cassette carbon pedals shoes shorts jersey wheelset sprocket chainring oil mudguard park parking creak creaking creaks squeak squeaking squeaks rattle rattling bearings bearing freewheel headset valves valve spoke spokes rim rims hub disc rotor pads bolt bolts screw torque handlebar stem seatpost bidon-cage cage lights light lock bell computer garage-pump pump sealant inner-tube tubes mechanic-shop bike-shop psi bar groupset crank cranks shifter shifters electronic mudguards",
	"chatter":   "joke poem song movie president football politics capital bitcoin recipe homework essay translate sonnet story riddle married girlfriend age old name birthday love dog cat marry pirate banana taxes invoice password instructions prompt rules ignore disregard forget pretend system hack secret developer stupid useless idiot dumb fool parrot hamster weather-man horoscope zodiac stars lasagne lottery stock stocks shares king queen minister election war church god heaven meaning-of-life philosophy universe planet moon mars equation sums algebra decimal fraction spelling dictionary word-for translation latin french german english sea mountains colour color favourite favorite film series netflix radio band tune music guitar piano crossword puzzle chess game games admin developer-mode system-prompt database code python program-code bored lonely feelings robot-love",
	"household": "key keys boiler heating kettle roof gutter bins bin rent landlord deposit printer wifi router laptop slides slideshow presentation website emails bank council taxi tickets flour yeast dough ciabatta sourdough prune pruning rose roses wisteria garden plant plants weeds marmalade tailor vicar bees glue carpet stain timer lamp lights plumber furniture neighbour's mortgage insurance parking biscuits scarf glove gloves puppy cricket snooker telly tv",
	"insult":    "stupid useless idiot dumb fool rubbish shit crap moron",
	"days":      "monday tuesday wednesday thursday friday saturday sunday weekend",
	"racetype":  "trial gravel classic cup prix gran league circuit handicap dash kermesse sprint relay championship championships champs cyclocross hillclimb series trophy memorial open omnium tourney tournament sportif audax randonnee brevet gran-fondo granfondo road-race grand challenge series-race reliability",
	"placename": "lane moor bridge bridges ridge valley lake pond river brook wood woods farm mill quarry pier dock docks beacon windmill lighthouse barn tower castle abbey market dale fell marsh heath common meadow meadows ferry weir bay cliff cliffs orchard vineyard chapel crossing gate corner village manor reservoir dam canyon gorge cove island isle dunes dune copper iron silver golden old upper lower north south east west saint",
	"number":    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen twenty thirty forty fifty sixty",
	"timely":    "fortnight weeks week days month months",
	"restart":   "again back restart resume return returning restarting resuming start-again gradually slowly build-up",
	"mine":      "i me my mine myself",
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
const moreWords = `prior leads leading binning bin skipping dropping cancelling the a an and or but not i you he she we they me my your his her our their it this that these those there here to of in on at by for from with about into than then so too very just only
	be is are was were been being am do does did done have has had will would should shall can could may might must need want like know think see look tell say give take get go going come make let keep
	day days week weeks month months morning evening night afternoon hour hours minute minutes min today tomorrow yesterday tonight now soon later before after until till again still already yet ever never
	always often please thanks yes no good bad best worse worst big small little much many more less most least few some any all both each every other another same different new old first last next
	people friend friends mate mates coach partner wife husband kids family boss office work school something anything nothing everything someone anyone really actually maybe perhaps probably quite
	early late half quarter twice once double extra bit lot kind sort stuff thing things way place home house road roads hill hills mountain climb climbs flat track trail gravel forest city england summer winter spring autumn
	marsh loop house mouse class close price place light right might sight tight eight weigh weight height three five seven nine eleven twelve thirteen fourteen fifteen twenty thirty forty fifty lesson lessons reason season person`

// dateWords can be part of a date.
const dateWords = `monday tuesday wednesday thursday friday saturday sunday january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec
	today tomorrow yesterday tonight weekend week weeks day days fortnight month months next last this coming on in the of past after before from now ago time morning evening night afternoon`
