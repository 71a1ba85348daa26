package asked

import (
	"regexp"
	"slices"
)

// rule is a wording and how much it speaks for topics. Wordings are matched against
// words parted by single blanks, with DAY, RACE, RIDER and LEN for what was found.
type rule struct {
	pattern *regexp.Regexp
	weight  float64
	topics  []int
}

func says(pattern string, weight float64, topics ...Topic) rule {
	r := rule{pattern: regexp.MustCompile(pattern), weight: weight}
	for _, t := range topics {
		r.topics = append(r.topics, slices.Index(Topics, t))
	}
	return r
}

// rules are wordings that say more together than their words do.
var rules = []rule{
	says(`^ (?:so |and |ok |hi |hey |hello |please |coach |sorry )*(?:why|how come) `, 4, Why),
	says(`^ why not `, -4, Why),
	says(` (?:whats|what is|what was) (?:behind|the (?:reason|point|thinking|idea|logic|purpose))`, 8, Why),
	says(`^ (?:please )?explain (?:DAY|RACE)`, 3, Why),
	says(`^ what (?:do|am|should|must|will|would|shall) (?:i|we) (?:do|ride|train|doing|riding|training|be riding|be doing)(?: on| for| the| this)* DAY`, 4, Ride),
	says(`^ (?:what is )?(?:my |the )?(?:ride|session|workout|training|plan)?(?: on| for)* DAY $`, 3, Ride),
	says(` (?:ride|session|workout|training|planned|riding|train|on the bike|cards|on for|got me|got for me) (?:\w+ ){0,3}DAY |DAY (?:\w+ ){0,2}(?:session|ride|workout|training|intervals) `, 1.8, Ride),
	says(`^ (?:(?:and|so|hi|hey|ok|please|DAY|give|me|session|ride|plan|training|workout|for|on|the|whats|what|is|then|am|i|my|about) )+$`, 1.5, Ride),
	says(` (?:rest day|ride or rest|on the bike) `, 1, Ride),
	says(` what (?:is|am|are|do|does|should|have|has|will|had|did) .*DAY`, 1.5, Ride),
	says(` how (?:long|much|many minutes) .*(?:ride|riding|session|intervals|spin|openers)`, 1.5, Ride),
	says(`^ (?:can|could|may) i (?:see|have|get) .*(?:plan|schedule|week|calendar)|(?:show|list|see) .*days `, 3, Plan),
	says(` (?:my|the|whole|full|show|see) (?:\w+ )?(?:plan|schedule|week|overview|program|programme) `, 1.5, Plan),
	says(` (?:race week|SPAN|seven days|7 days|coming days|next few days|rest of the week|whole week|days ahead|week ahead) `, 1, Plan, Hours),
	says(` (?:when|how (?:many \w+|long|soon) (?:until|till|before|to)|last (?:normal|full|hard) week) .*(?:taper|tapering|ease off|back off|backing off|stop training hard|take it easier|easing|wind down|cut down|cut back|freshen)`, 4, TaperStart),
	says(` (?:start|starts|begin|begins|started|begun|first day|beginning).*taper| taper.*(?:start|begin|kick)`, 3, TaperStart),
	says(` how (?:long|many days|many weeks) (?:is|are|should|do|does|of|must|will|shall|can|would|a) .*taper`, 4, TaperLength),
	says(` taper.* (?:to|of|for) (?:two|three|a|one|LEN|\d+) (?:weeks?|days?)|stop training hard`, 2, TaperLength),
	says(` (?:longer|shorter|too long|too short|length|duration|enough) .*taper| taper.*(?:longer|shorter|too long|too short|length|long enough|duration)`, 3, TaperLength),
	says(` (?:days|day|week|weeks|LEN) (?:of |long )?taper`, 2, TaperLength),
	says(` how (?:many|much) (?:hours|hrs|volume|training|time|riding|rides|km)|total|volume|mileage|hours .*week| weekly`, 2.5, Hours),
	says(` how (?:long|many minutes|many hours|far|much) .*DAY `, 2.5, Ride),
	says(`^ (?:so |hey |hi |and |please |coach |ok )*(?:can|may|could|am|is|would|should|shall|do) (?:i|it|we|there|you) `, 0.8, MayI),
	says(` (?:thinking of|tempted to|fancy|want to join|planning to|mates want|invited|would it be|is it (?:ok|bad|fine|safe)|good idea|bad idea) `, 2.5, MayI),
	says(`^ .*(?:can|may|could|ok|okay|allowed|good idea|bad idea|safe|fine|alright|should|stupid|wise|harm|hurt|matter) .*(?:group|bunch|chaingang|club|long ride|ride|hard|intervals|hills|skip|swap|move|spin|run|swim|football|hike|sportive|extra|LEN|day off|off) `, 2.5, MayI),
	says(` what if i (?:do|ride|went|go|did|add|take) `, 3, MayI),
	says(`^ (?:please |can you )?(?:move|swap|switch|shift) `, 3, MayI),
	says(`^ (?:my |the )?(?:plan|schedule)(?: please)? $`, 6, Plan),
	says(` is DAY (?:a |an |going to be |my )*(?:hard|easy|rest|long|short|off|tough)`, 5, Ride),
	says(` (?:how do i|how can i|where do i|set a|set up|change my|delete|erase) .*(?:reminder|data|week|settings|zone|account)|set a reminder`, 5, Help),
	says(` need (?:a |to )rest `, 3, FlatLegs, MayI),
	says(` (?:swap|move|switch|shift|skip|replace) `, 2, MayI),
	says(` what (?:is|are|does) (?:an? |the )?(?:openers?|rpe|taper|threshold|tempo|steady|easy|hard|endurance|recovery|intervals|sweetspot|cadence|b race|a race|opener ride)(?: ride| mean| feel like| exactly| again)* $`, 5, HowHard),
	says(` (?:how hard|how easy|what effort|what power|what pace|what intensity|heart rate|which zone|what zone|watts|rpe|how fast|how intense|how strong|what does .* mean|what means|what is meant) `, 3.5, HowHard),
	says(` when (?:is|do|are|am|will) .*(?:race|RACE|racing|event|crit)|how (?:long|many \w+|far) (?:till|until|to|off|before|is it to|left) .*(?:race|RACE|event)|next race|next event|days to go|countdown to|what (?:time|date|day|hour) (?:is|does|do|are) .*(?:race|RACE|crit|event|start)|(?:where|what hour) is (?:the |my )?(?:race|RACE|start)`, 3, NextRace),
	says(` (?:what|which|all|list|show|how many) (?:\w+ )?(?:my |the |of |a |of my )*(?:races|events|competitions)|(?:am i|have i|i am|did i) (?:signed up|entered|enter|registered|down) for`, 3.5, Races),
	says(` (?:slept in|sleep in|slept through) `, 5, Missed),
	says(` (?:missed|skipped|missing|overslept|bailed|did not (?:ride|train|do|go|manage|get)|could not (?:ride|train|do)|forgot to ride|never got|not ridden|blew off|no ride|only managed|gave up|cut .* short|rained off|make up for|catch up) `, 4.5, Missed),
	says(` (?:can not|not able to|unable to|wont be able to|will not) (?:ride|train|do|make|cycle|be) `, 3, Away),
	says(` (?:only have|only got|just have|max|at most|no more than|short on time|no time|busy|away|holiday|travel|travelling|flying|vacation|out of town|unavailable|work trip|no bike|without (?:my |a )?bike) `, 3, Away),
	says(` (?:should|is|make|could|what) .*(?:an? )?(?:[abc]) (?:or (?:an? )?[abc]|race|priority)`, 3, Season),
	says(` (?:make|change|turn|downgrade|upgrade) (?:RACE|it|the|my).* (?:an? )?[abc] `, 3, Season),
	says(` (?:calendar|season) (?:sensible|ok|fine|good|make sense|too full)|peak (?:in|twice|for|more)|bother making `, 4, Season),
	says(` (?:season|peak twice|too many|close together|how many tapers|weeks apart|priority) `, 2.5, Season),
	says(` (?:harder|more|extra|massive|30%|heavy) .*(?:before|until|till) (?:i |the |my )*taper|taper(?:ing)? starts`, 4, Overload),
	says(` (?:overload|training camp|camp|big block|heavy block|block|overreach|percent|% more) `, 3.5, Overload),
	says(` (?:legs|i|feel|feeling|am|everything) .*(?:flat|heavy|lead|dead|tired|sluggish|knackered|exhausted|empty|drained|cooked|weak|no power|shattered|wiped|stale|wooden|fatigued|rubbish|awful|terrible|slow|wrecked|toast|jelly) `, 3, FlatLegs),
	says(` ride (?:on )?the day after (?:the |my )?(?:race|RACE)|how soon after `, 3, AfterRace),
	says(` (?:after (?:the |my |this |a |b |c |big |DAY )*(?:race|RACE|event|competition|crit)|post race|day after (?:the )?race|recover from (?:the |my )?(?:race|RACE)|afterwards) `, 3.5, AfterRace),
	says(` how will .*legs|how good .*legs|fresh enough `, 4, RaceLegs),
	says(` on the day `, 2, RaceMorning),
	says(` (?:race morning|morning of|warm up|warmup|race day|before the start|kit list|get up|leave (?:for|home)|what .*(?:bring|pack|take with)|alarm|arrive) `, 2.5, RaceMorning),
	says(` (?:gym|weights|strength|squats?|deadlifts?|lift|lifting|core work|pilates|leg day|kettlebells?|leg press) `, 4, Strength),
	says(` (?:sleep|slept|sleeping|nap|naps|insomnia|bedtime|awake|asleep|go to bed|in bed) `, 4.5, Sleep),
	says(` (?:eat|eating|food|carbs?|carbo|carbohydrates?|gels?|drink|drinking|pasta|diet|caffeine|coffee|nutrition|hydration|hydrate|beer|alcohol|wine|bottles?|beetroot|weight|calories|protein|fuel|fuell?ing|breakfast|dinner|water|rice|sugar|meal|meals) `, 3.5, Food),
	says(` (?:lose|losing|lost|loss of|keep) .*(?:fitness|form|shape)|(?:how|will|am) .*(?:fresh|fitness|fit|faster|in form|in shape|be ready|on track|rested|good enough) `, 4, RaceLegs),
	says(` (?:target|goal|main|new|next) race is `, 3, AddRace),
	says(` (?:add|enter|entered|register|registered|signed up|sign me|new race|got a race|have a race|booked|called|put .* in|racing on|racing at|doing a) .*(?:race|RACE|DAY|LEN|event|crit|called)`, 2.5, AddRace),
	says(` (?:i am|i will be|we are) (?:racing|doing a race|riding a race|going to race) `, 3, AddRace),
	says(`^ (?:when|where|what|how) am i racing|^ am i racing `, -3, AddRace),
	says(` (?:called|named|its an a|it is an a|a b race|an a race|priority [abc]) `, 1.5, AddRace),
	says(` who (?:is|else|races|needs|starts|all|are (?:tapering|racing|ill|away|resting)) |which (?:of my )?(?:riders|athletes)|my riders|my athletes|the squad|the team|roster`, 3.5, WhoTapers),
	says(` (?:ics|my calendar|phone calendar|calendar file|calendar app|google calendar|outlook|export|to my phone|on my phone|calendar feed) `, 3.5, Calendar),
	says(` (?:ibuprofen|paracetamol|painkillers?|antibiotics?|inhaler|aspirin|tablets?|pills?|medicines?|medication|syrup|antihistamines?|supplements?|creatine|nasal spray|beta blockers|cortisone|ventolin|iron|magnesium|doping|banned|dose|drugs?|nurofen|cough drops|tramadol|asthma|steroids?) `, 7, Medicine),
	says(`^ (?:ok |many |great |perfect |super |cheers |lovely |brilliant |cool |nice |right |got it |good |that helps |no |and |so )*(?:thanks|thank you|cheers|ta|perfect|great|brilliant|awesome|nice one|cool|ok|got it|lovely|good bot|legend|super|nice|fine|bye)(?: mate| you| coach| a lot| very much| so much| again| for .*| cool| bot| got it| see you| then| one)* $`, 5, Thanks),
	says(`^ (?:hi|hello|hey|good morning|good evening|help|hiya|yo|hey there|hi there)(?: there| coach| bot| mate| musette| me| please)* $`, 6, Help),
	says(` (?:what can you|who are you|are you (?:a|real|human)|how do you work|how does this work|use this|what are you|commands|new here|can i ask|what do you do|get started) `, 4, Help),
	says(`^ (?:i |just |have |i have |well |ok |yes |so |today |DAY )*(?:rode|did|done|finished|completed|trained|logged|log|went out|smashed|got back|spun|managed|nailed|cycled) `, 2.5, TellRide),
	says(`^ (?:i |just |so )*(?:rode|did|trained|logged|log|cycled|spun|done)[^?]* LEN`, 2, TellRide),
	says(` (?:my (?:typical |usual |normal |training )?week|usually|normally|typically|every week|each week|a normal week|typical week|usual week) (?:is|i|looks|for|:|DAY|train|ride) `, 3, Week),
	says(` DAY .* DAY .* DAY .*`, 1.5, Week),
	says(` (?:weather|joke|poem|president|capital|football|tyres?|puncture|hotel|saddle height|gear ratio|instructions|prompt|system|password|token|bitcoin|price|cost|helmet|chain|pressure|movie|song) `, 3.5, Unknown),
	says(` (?:sore|hurts?|pain|painful|ache|aching|tweaked|bruised) .*(?:knees?|back|wrist|shoulder|ankle|calf|achilles|hip|neck|hamstring|tendon|foot)|(?:tweaked|bruised|came off) `, 4, Injury),
	says(` (?:knee|back|wrist|shoulder|ankle|calf|achilles|hip|neck|hamstring|foot|feet|thigh|elbow) .*(?:hurt|hurts|pain|painful|sore|aches?|stiff|swollen|gone|playing up|killing|tight)|(?:pulled|twisted|sprained|broke|broken|strained|injured|injury|crashed|fell off|saddle sores?|pain in|hurt my) `, 4, Injury),
	says(` (?:lurgy|full of cold|throwing up|puking|sick|ill|unwell|fever|a cold|my cold|flu|sore throat|cough|coughing|runny nose|covid|stomach bug|virus|poorly|vomiting|headache|shivers|influenza|under the weather|coming down|infection) `, 4, Sick),
	says(` (?:well again|better now|better again|healthy again|recovered from|over my cold|feeling better) `, 3, Sick),
}
