package care

import "strings"

func set(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

var (
	// fillers part the words of a wording without changing it.
	fillers = set(`a an the my me mi i im ive bit of really proper properly well super very so just like been is was s also still got kinda sorta sort kind all bad badly big massive little slight slightly quite pretty
		totally right some his her its it to and then feels felt feel went gone bloody fucking literally actually suddenly both only too again wee small tiny huge awful horrible weird strange funny or in at on have had has has'
		ein eine einen einem bisschen bissl etwas der die das den dem mein meine meinem meiner im am so ganz ziemlich hab habe bin ist war auf in
		un une le la les l d du de des mon ma mes au aux jai j ai petit petite gros grosse tres peu en
		una uno el los las mi mis me se muy poco al lo he ha
		o os as um uma no na do da dos das meu minha meus minhas ao deu muito pouco
		il i gli lo del della dei alla ho mia mio po molto un nel`)

	// negators are in wordings that have a negation of their own.
	negators = set(`not no never cant cannot cudnt couldnt didnt dont doesnt wasnt isnt without wont havent nothing aint nobody no_longer
		nicht kein keine keinen ohne nie pas plus sans rien aucun aucune ni no sin nada nunca ya nao sem nem non senza niente nessun nessuna mai piu`)

	// endNegators follow what they negate at the end of a clause: "fever none".
	endNegators = set(`none nope negative nein keine keins keiner aucun aucune ninguno ninguna nenhum nenhuma nessuno nessuna zero`)

	// denials turn a statement round.
	denials = set(`not never nobody isnt wasnt arent hasnt havent doesnt didnt nicht kein keine pas nao nunca nessuno nadie ninguem personne`)

	// contrast ends what a negation reaches.
	contrast = set(`but though although however except because cos coz cuz since as after apart besides just then so when while until till yet still now today
		aber sondern weil seit nach doch trotzdem jetzt heute mais car depuis parce apres sauf maintenant pero sino porque desde despues aunque ahora mas depois agora ma pero perche dopo adesso oggi`)

	// thinks are verbs that pass a negation on: "I dont think I fainted".
	thinks = set(`think feel believe reckon say said glaube denke pense crois creo penso acho credo`)

	// goesOn follows what has gone elsewhere and not away.
	goesOn = set(`down to into on onto worse from bad nasty through and_worse`)

	// doings are what somebody did, after a name.
	doings = set(`had got broke fell crashed fainted cracked hit passed collapsed caught fractured banged smashed woke tore dislocated knocked`)

	// vital words are never part of a figure of speech that goes on in the next clause.
	vital = set(`head helmet face chest heart lungs cold`)

	// owning follows "I" where the rider has what comes after it.
	owning = set(`have had got get feel felt was am keep kept cant couldnt nearly fainted still just think hit fell crashed lost woke hear see saw`)

	buts = set(`but aber mais pero ma mas`)

	// bumped are parts that hit something, attacked what has an attack that is no ride.
	attacked = set(`heart hart asthma`)
	bumped   = set(`head helmet face chin temple skull chest nose`)

	// yearLeads come before a year in which something was, lasting ones before one since which it goes on.
	yearLeads = set(`in from before until till around circa en de em nel im vor dans`)
	lasting   = set(`since all depuis seit desde dal dall the this of my`)
	yearTails = set(`never nothing no cleared surgery fine good ok now i nie nada rien mai nunca ganz`)
	dated     = set(`helmet helm casco casque capacete bike rad bici velo season league opener`)
	months    = set(`january february march april may june july august september october november december jan feb mar apr jun jul aug sept sep oct nov dec winter summer spring autumn season`)

	// calendar words have capitals by themselves.
	calendar = set(`monday tuesday wednesday thursday friday saturday sunday january february march april may june july august september october november december i im ive doctor dr gp english`)

	subjects  = set(`i im ive ich je j yo io eu`)
	listWords = set(`or nor oder noch ou ni o nem ne`)
	andWords  = set(`and n plus und et y e ed`)
	saying    = set(`said says told thinks reckons wants`)
	theirs    = set(`him his her hers he she himself herself`)

	// having comes before a symptom and never before a name.
	having = set(`got getting get have having had has with feel felt feeling some bad my a an bit slight mild severe this terrible suffering from serious`)

	prepositions = set(`on in at to after during from for up down over while when since by near off am beim auf nach sur dans apres en na no nella sulla in`)

	// callings come before a name.
	callings = set(`called named call heisst heissen nennen appelle appelee llama llaman chiama chama chamada llamada segment`)

	// placesAfter follow a name, placesBefore come before one.
	placesAfter = set(`duathlon triathlon tri plunge alleycat omnium scramble dash charge fest festival weekender brook barn forest park field fields fields_road beck river rivers stream creek ten fifty twenty thirty forty hundred 25 10 30 40 60 120 audax hollow rock rocks heights hillclimb marathon tunnel junction roundabout ferry locks mill abbey castle tor fell pike downs heath hill hills climb climbs col lane lanes bridge pass valley ridge corner criterium crit classic classics loop road rd drop gulch gulley gully quarry moor farm cafe pub bar chapel alley bend street
		sportive gravel race races tt challenge tour 100 50 80 200 six goat nun woman mountain peak summit wood woods drive way row end inn arms segment kom fondo granfondo cup open trophy rennen berg cup pass tal weg circuit ride
		sunday mile prix series crossing ford gap edge bank brow steps wall muur mur cross enduro rally marathon festival trail track 24 12 road_race avenue head point bay beach lake cove creek canyon`)
	placesBefore = set(`col tour montee cote cuesta subida alto puerto volta muro mur muur pub cafe bar inn hotel farm team marcha salita passo monte colle gara gran fondo granfondo sportive race rennen
		bergzeitfahren berg serra ponte pont puente bridge lane chapel loop climb ronda circuit circuito segment mount mt mont lago lake camp cima rampa ermita pico mirador monumento descente sentier village dorf`)
	placesNear = set(`monte passo pico cima pic piz sierra serra sommet gipfel mount mt mont lago rompepiernas col cuesta montee muro marcha volta pub cafe bar team granfondo fondo`)
	// entering comes before the name of a race, nameLeads before any name.
	entering  = set(`entered enter entering recce target registered booked pace`)
	nameLeads = set(`at over via up doing do to entered round past from through for towards near by or is did add riding climbing on put in of how reps target steep`)
	// placesWithin are places where a head is hit, and no names.
	placesWithin = set(`wall road rd edge steps gate track trail rock rocks bank drop end bar row way down ten six 10 24 12 20 25 30 40 50 60 80 100 120 200 ride race sunday climb hill point head open pass cross fell common green mile street`)
	// repeated are sets of training, determiners no part of a name.
	repeated    = set(`reps rep repeats efforts intervals sprints sprint training session sessions`)
	determiners = set(`every each this that last next today all any most club group only again still more way about twice`)
	// generic places may as well be where it happened.
	generic = set(`ten fifty twenty thirty forty hundred 25 10 30 40 60 120 rock rocks tunnel junction roundabout locks way row six woman drop open edge point mile trail 24 drive circuit tour series pass cross bar bank steps nun goat race_day stream ferry mill hill hills climb climbs race races ride loop gravel tt crit track road sunday wall head end 100 50 80 200 12 24 drop`)
	// namedPlaces end a name although it may have happened there.
	namedPlaces = set(`hill hills loop crit circuit`)
	ofs         = set(`of the de du del do da dei della di des la le l d los las el`)

	// ordinary words are never taken for misspelt ones.
	ordinary = set(`skies skied sky reached reach diary diaries suits suit wrest suppose supposed spain antihistamine antihistamines bonk bonked bonking marco clamp honk honked soon sent pure plate location locations finding findings conclusion conclusions concise concurrent converse conversion desire intervention isolation operate operates operating operation operations operator
		automatic automatically automatique automation binding collate innovation invocation opera plural sacrifice sourcing sparring squaring branching sven palette broad steep sonno goes steht stehen stent bringing bring comeback pill pills cheat cheats chess cheap chase chart chasing cheers check checks cheese fewer favour favor fibre several sever stoke stokes strike strikes strong store stores story stroll stroke strokes heard
		heath hearty hearts couch coach crush cash clash class classes cross crosses crest crank cranks brake brakes braked braking brook bloke angle angles uncle below skill skills silver shaver shower showers sweet share
		shape shapes shared shower shelter should shoulders sitting setting getting letting feint faith paint paints plain plans plan planned planning train training press presse stress pass passed passes past
		pasta post posts black block blocks blocked back bask bench bunch lunch launch turn turned tour tired tires tire tyre tyres tied tiger night might light lights tighten fight sight right eight weight weighs
		breath breathe breathing bread break breaks breakfast bike bikes biking bridge bride brain bring being been bean beat head heads heat hear here hair stop stopped start started still stiff staff stuff small
		stall skull skill spill spell spoke spokes speak speed spent sport sports spot spots split spring spin spins spine sprint sprints throat threat throw threw though thought through thumb thump tummy tommy vomit
		comet limit visit voice volume virus venue value valve feed feeling feelings felling filling falling failing fall feel feet fever ever never lever level river rider riders riding rides ride race races racing
		raced pace paced pacing chance change changed changes charge charged cough rough tough dough enough laugh laughing bought brought fought caught cold could would world word words work works worked working worn
		wrist waist twist first fist list last past fast cast coast toast most must mist miss missed misses mess moss loss lose loses losing lost loose close closed house horse hours hour hurt hurts hunt hurry
		collar collars colour color colours collect college collapsible complain complaint complete compete confirm confirmed conform comfort comfortable confused confusing computer commute commuted commuting common
		community combination company compact compass temple sample simple temper temperature temperatures templar fit fits fitting fitted kit nose noise noisy loose rose dose hose broke broken brother brothers bother bothered
		another other others mother father farther further later latter letter better bitter butter batter battery scratch stretch stretches stretching sprained strain strained restrained drain drained grain terrain
		shiver shivers shaking seeing seems seem seen scene sense since sins sign signs signed sick stick sticks sticky trick tricky pick picked pickup pack packed puke duke puked poked point points joint joints
		hospital hospitality doctor doctors factor tractor sector section sections session sessions season seasons reason reasons poison person persons dodgy doggy dog dozen dizzy busy bust dust rust trust lust
		palm palms calm jump jumps jumped jumper bump bumps bumped bumpy dump pump pumps pumped lump lumpy fluid flood flow flows flows floor flour flat flats flutter butter fracture feature features future picture
		tempo temps tempos temp helmet helmets hamlet stomach seize size sized prize price injury injured inside insane knees need needs kneel keen knock knocked knocking knack snack smack smash smashed mash crash
		brush brushed brand brown blown blow blows bleed blend blind blood bloody bleeding floods gloves glove drop drops dropped droppers drip drive driver drivers drift draft dry dried cried tried trial trail trails
		tail fail nail mail main pain paid pair pairs fair stair stairs chair chairs chain chains china chin shin thin thing things think thinking thick shift shifts shifted shirt short shorts shot shots
		passage passed passing parsing paused passport packing parking ankle ankles elbow elbows muscle muscles mussel cycle cycles cycling cyclist clinic click clicking cling climb climbs climbing climber
		cut cuts cutting shut gut guts butt putt butts self shelf suffer suffered suffering supper upper puncture punctured pictures structure stricture seizure leisure measure measures pleasure treasure
		sunday monday friday saturday tuesday thursday wednesday january february march april may june july august september october november december weekend weekday weekly
		purge merge verge urge surge large barge starve serve service nerve curve swell well sweat sweats sweaty sweating swear swearing wearing bearing heaving having hiving living lifting living leaving
		sporting starting sharing sorting snorting standing sanding stranding sending spending spinning stunning running raining ranking drinking thinking blinking linking
		scare scared scar scars scary spare spared space spaced pulse pull pulls pulled pulling push pushed pushing piece pieces peace niece knife wife life like liked likes bike line lines
		tongue tonight tonne tone stone stones bone bones gone done none nine fine find kind mind wind winds windy window winter winner dinner inner thinner finish finished finishing french
		schwer schnell schon schoen schluss schlecht schlafen kommt komme kopf knopf herz hertz herzlich hart hast heute leute leise letzte fahren fahrt gefahren gefallen gefahr gestern gesehen sturz stolz stark start
		fieber lieber ieder brust bruder brauche bruch durch drueck drucke druck brechen sprechen husten kosten magen tagen wagen sagen morgen sorgen
		pecho hecho techo derecho pierna piernas viernes cabeza cabezas cerveza cuerpo tiempo puerto puerta fuerte fuera fuerza febrero fiebre fibra pueblo dolor color valor calor golpe grupo gripe grupeta
		peito feito perto parto parte partida direito febre livre sempre costas contas pontas queda quero perna pernas treino treinos tenho tenha senti sinto cinto
		poitrine coeur choeur chute chaque tete fete bete ete fievre lievre livre libre genou gens toux tout tous toute douleur couleur chaleur malade malaise balade salade
		petto pezzo tetto letto detto testa festa resta gesto tosse fosse mosse rosse febbre febbraio caduta salita uscita vita gamba gambe dolore colore calore cuore cuoio
		power powers poor pour poured four hour flour colder older holder shoulder soldier order ordered border`)
)

// smallWords tell languages apart.
var smallWords = func() map[string][]Lang {
	out := map[string][]Lang{}
	for lang, words := range map[Lang]string{
		English:    "so he she we you all out off up what how i im ive no the my and but was is it this of with for can do from have had been when after since to in a not at did ok today tomorrow yesterday got",
		Portuguese: "nao com uma um o do da no na os as meu minha e mas desde ontem hoje amanha para ja estou tou tenho esta mesma medico treino posso dias cai em ao dos fazer depois",
		Spanish:    "el la los las un una mi me he con y pero desde ayer hoy manana para ya estoy tengo no muy al en de del que puedo salgo sin nada esta semana entreno creo dias despues",
		French:     "ans tout va le la les un une mon ma mes et mais depuis hier demain pour je j jai ai suis ce matin pas au du des en quand meme jour seance sortie dans apres plus jme jsuis cest jpeux",
		German:     "der die das ein eine ich hab habe bin und aber seit gestern heute morgen fur auf dem den im am mit nicht noch trotzdem soll ist mein meine nach beim vorhin kein",
		Italian:    "il la lo un una mi ho sono ma da ieri oggi domani per con e non che gli del della nel stamattina dopo giro faccio posso e mio mia un po in stesso anche",
	} {
		for w := range strings.FieldsSeq(words) {
			out[w] = append(out[w], lang)
		}
	}
	return out
}()

// coughs are what makes "chest" an illness of the lungs rather than a sign of the heart.
var coughs = set(`cough coughs coughing caugh coff`)

// besideCough are words of something graver beside a chest cough.
var besideCough = set(`pain pains painful hurt hurts hurting ache aches aching sore tight tightness pressure stab stabs stabbing sharp burn burns burning crushing squeezing heavy heaviness blood bloody bloods red rusty pink heart pulse palpitations faint fainted fainting collapsed dizzy confused blue lips grey`)
