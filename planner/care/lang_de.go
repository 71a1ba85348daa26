package care

var german = speech{
	lang: German,
	meanings: []group{
		{Emergency, Stop, false, `
			druck|enge|schmerz|schmerzen|stechen|stiche|ziehen|brennen|engegefuhl|druckgefuhl|beklemmung|krampf|schwere <6> brust|brustkorb|brustbein|herz|herzgegend
			brust ~4 eng|enger|zu|schmerzt|druckt|sticht|brennt|tut_weh|weh|zieht|zugeschnurt
			brustschmerz*|brustenge|brustdruck|brustbeklemmung|thoraxschmerz*|herzschmerz*|herzstechen|herzinfarkt|herzanfall|angina
			herz ~3 sticht|schmerzt|weh
			umgekippt|umgefallen|ohnmachtig|ohnmacht|bewusstlos*|bewusstsein|kollabiert|kollaps|zusammengebrochen|zusammengeklappt|zusammengesackt|zusammenbruch|weggetreten|weggesackt|synkope
			in ~1 ohnmacht
			kurz|kurze|sekunden|minute ~2 weg ~1 gewesen|getreten|war
			schwarz ~2 vor ~2 augen
			schwarz geworden
			keine|kaum|nicht|schlecht|zu_wenig ~2 luft
			krieg|kriege|bekomm|bekomme|krieg_ich ~3 luft
			atemnot|luftnot|kurzatmig
			kann ~3 atmen
			schnappe ~2 luft
			blut <4> gehustet|husten|ausgehustet|gespuckt|auswurf|spucke|spucken|huste|hust|abgehustet
			bluthusten
			anaphyla*|schockzustand|blutung ~3 stoppen|aufhort|stillen
			spur|spure ~2 arm|bein|hand|seite ~2 nicht
			verwirrt|verwirrung|desorientiert|orientierungslos|benebelt
			weiss|wusste|weiß ~3 nicht ~1 mehr ~2 wo|wer|wie
			krampfanfall|epilept*|anfall|krampfanfalle
			schlaganfall|hirnschlag
			gesicht|mundwinkel|mund ~3 taub|hangt|hangen|schief|gelahmt|schlaff
			arm|bein|hand|seite ~4 taub|gelahmt|kribbelt|lahm
			linke|linker|linken arm ~3 taub|schmerz*|weh|kribbel*
			lallen|gelallt|lalle|verwaschen
			sprache|worte|worter|sprechen ~3 nicht|weg|komisch|kaum|undeutlich
			doppelt ~1 gesehen|sehe
			sehe|seh doppelt
			hitzschlag|sonnenstich|hitzekollaps|hitzeerschopfung
			schwitze|schwitz|geschwitzt ~3 nicht|mehr|aufgehort
			herzrasen|herzstolpern|herzklopfen <8> schwindel*|ohnmacht|luft|brust|schwindlig`},
		{Head, Stop, false, `
			kopf|schadel|schlafe|stirn|hinterkopf|birne <6> gefallen|geknallt|gestossen|aufgeschlagen|angeschlagen|gehauen|geschlagen|schlag|gestoßen|angestossen|geprallt|aufgeprallt|gekracht|abbekommen|beule|platzwunde|angehauen|aufgekommen|gelandet|gedonnert|erwischt|gerammt
			kopfverletzung|kopftreffer|kopfstoss|schadelprellung|kopfprellung|schadelhirntrauma|beule_am_kopf
			gehirnersch*|hirnersch*|gehirnerschutterung|kopf_erschuttert
			helm ~5 kaputt|gebrochen|riss|risse|gerissen|zerbrochen|gespalten|delle|hin|zerlegt|schrott|durch|bruch|angebrochen|gesplittert|eingedruckt|zerstort|hinuber|platt|gekracht|kratzer|aufgeplatzt|zersprungen|gekriegt
			gebrochener|kaputter|zerbrochener helm
			sterne gesehen
			sehe sterne
			gesturzt|sturz|hingefallen|hingeflogen|abgeflogen|gelegt <<14>> kopfschmerz*|kopfweh|ubel|schwindel*|schwindlig|schlecht|erinnern|brummt|benommen|lichtempfindlich|gedachtnis*|brummschadel|gekotzt|erbrochen
			kopf brummt|drohnt
			auf ~2 kopf|kopp|schadel|birne`},
		{Doctor, Stop, false, `
			herzstolpern|herzrasen|herzklopfen|herzrhythmus*|herzflattern|rhythmusstorung*|vorhofflimmern|extrasystolen|herzaussetzer
			herz ~4 stolpert|rast|flattert|aussetzer|holpert|spinnt|hupft|springt|klopft|setzt_aus|unregelmassig|komisch|verruckt|galoppiert
			puls ~4 unregelmassig|spinnt|verruckt|rast|springt
			schlusselbein|rippe|rippen|handgelenk|arm|finger|hand|ellenbogen|ellbogen|knochel|schulter|fuss|bein|huftbruch|daumen|kahnbein|nase|kiefer|zeh|becken|speiche <5> gebrochen|bruch|durch|angebrochen|angeknackst|gebrochene|angerissen|ausgekugelt|fraktur|geknackst|kaputt|ausgerenkt
			rippenbruch|schlusselbeinbruch|handgelenksbruch|knochenbruch|fraktur|armbruch
			handgelenk|knochel|ellbogen|hand|finger|ellenbogen ~4 geschwollen|dick|blau
			rontgen|gips|gegipst
			lungenentzundung|bronchitis|herzmuskelentz*|myokarditis|rippenfellentz*|pfeiffersches|drusenfieber|thrombose|embolie|lungenembolie
			antibiotikum|antibiotika
			arzt|arztin|doc|doktor|hausarzt|orthopade|kardiologe|kardiologin|physio|krankenhaus|arzte ~6 pause|verboten|schonen|sportverbot|nicht|kein|keine|verbot|ruhe|krankgeschrieben|wochen|tage|pausieren|verordnet|bettruhe|aussetzen|abgeraten
			sportverbot|krankgeschrieben|krank_geschrieben
			operiert|operation`},
		{Rest, Stop, false, `
			fieber|fiebrig|schuttelfrost|fiebre|temperatur
			grippe|grippal*|corona|coronatest|covid
			husten|huste|gehustet|reizhusten|schleim|auswurf
			kotze|kotzen|gekotzt|erbrochen|ubergeben|brechdurchfall|durchfall|kotzerei|erbrechen|dunnpfiff
			nacht ~1 gekotzt
			magen darm
			magendarm*|magenschmerzen|bauchkrampfe|bauchschmerzen|bauchweh|magenkrampfe|magenverstimmung|lebensmittelvergiftung
			gliederschmerzen|gliederweh|muskelschmerzen_uberall
			alles tut ~1 weh
			krank|erkaltung_auf|mir ~2 ubel|schlecht
			bin|fuhl|fuhle ~3 krank|kranklich
			knie|hufte|rucken|achillessehne|sehne|schulter|nacken|knochel|fuss|wade|leiste|kreuz|handgelenk|ellbogen|rippe|rippen ~5 weh|schmerzt|schmerzen|sticht|zwickt|zieht|geschwollen|entzundet|gezerrt|weg|schmerz|brennt|prellung|geprellt
			schmerz|schmerzen|stechen|weh ~3 knie|hufte|rucken|achillessehne|schulter|nacken|sehne|leiste
			knieschmerzen|ruckenschmerzen|huftschmerzen|sehnenentzundung|zerrung|muskelfaserriss|bandscheibe|hexenschuss|nackenschmerzen
			schmerzen beim ~1 treten|fahren|radfahren
			schwindel|schwindlig|schwindelig|kopfschmerzen|migrane|kopfweh
			angeschlagen`},
		{Easy, Stop, false, `
			schnupfen|schnupfennase|halsweh|halsschmerzen|erkaltet|erkaltung|halskratzen|verschnupft|niesen
			nase ~2 lauft|zu|verstopft
			hals ~2 kratzt|weh`},
		{Talk, Stop, false, `
			kotz*|brech*|erbrech*|ubergeb* ~4 nach ~2 essen|mahlzeit|abendessen|mittagessen
			kotz*|erbrech*|ubergeb* ~6 leichter|abnehmen|dunner|gewicht
			nicht|nimmer|keine|keinen ~2 mehr ~2 leben|dasein|da_sein|lebenswert|aufwachen
			will|mochte|mag ~4 nicht ~1 mehr ~1 leben|aufwachen
			keine lust ~2 leben
			bring|bringe|brachte|bringen ~2 mich ~1 um
			umbringen|selbstmord|suizid*|sterben_will|ritzen|geritzt
			ritze ~1 mich
			mich ~2 ritze
			mich ~2 umbringen|umzubringen|verletzen|verletzt_selbst|geschnitten
			leben ~2 beenden|ende|nehmen|sinnlos
			schluss machen ~2 allem
			will|mochte sterben
			ohne mich ~3 besser
			besser ~2 ohne mich
			gegen ~2 baum|lkw|brucke ~2 fahren
			essstorung|magersucht|magersuchtig|bulimie|bulimisch|abfuhrmittel
			finger ~3 hals
			nach ~1 essen ~3 kotze|erbreche|ubergebe
			absichtlich ~3 kotz*|erbrech*|erbroch*
			hunger|hungere ~2 mich
			angst ~2 essen|zunehmen
			esse|ess|gegessen ~3 nichts|nur|kaum|nicht ~5 gewicht|abnehmen|leichter|tagen|apfel|kalorien`},
	},
	figures: `
		berg|anstieg|hugel|steigung|rampe|runde|training ~2 hat|hatte|bringt ~3 umgebracht|gekillt|getotet|fertig|um
		mich ~1 fast umgebracht|gekillt
		kopf ~1 an kopf
		gegenwind|rennfieber|lampenfieber|reisefieber
		fieber|fiebere ~3 entgegen|rennen|dem
		aus ~1 kopf
		im kopf ~2 leer|frei
		herzblut|herzlich|herzfrequenz|herzschlagfinale|herzkasper
		beine ~3 brennen|weh|tot|kaputt|schwer|muskelkater|blei
		kette|speiche|rahmen|felge|sattel|rad|pedal|schaltung ~3 gerissen|gebrochen|kaputt|durch
		speiche ~2 gebrochen
		pulsgurt|brustgurt
		ausser|außer atem ~4 berg|oben|anstieg
		krank ~1 geil|gut|schnell
		totlachen|totgelacht
		bis ~1 umfallen`,
	not: `
		kein|keine|keinen|keinerlei|nicht|ohne|nie|niemals|nichts|weder|null|nix`,
	hollow: `
		nicht nur|gut|so
		nicht ~1 sicher|mehr|fahren|trainieren|schlafen|geschlafen|gefahren
		kein|keine ~2 luft|ahnung|lust|training|ausfahrt|rad|sport|rennen|kraft|intervalle|runde|plan|bock
		nichts ~1 mehr`,
	others: `
		vereinskollege|vereinskollegin|teamkollege|teamkollegin|vereinskamerad|trainingspartner|trainingspartnerin|radkumpel|mannschaftskollege|schwager|schwiegermutter|schwiegervater|nachbar|nachbarin
		mein|meine|meinem|meiner|der|die|das|ein|eine|unser|unsere|sein|ihr bruder|schwester|frau|mann|tochter|sohn|kind|kinder|vater|mutter|papa|mama|freund|freundin|kollege|kollegin|kumpel|hund|katze|chef|chefin|nachbar|nachbarin|oma|opa|trainer|kleine|kleiner|partner|partnerin|teamkollege|schwager|onkel|tante|baby|teamkollegin|bub|junge|madchen|fahrer|typ
		bruder|schwester|tochter|sohn|kinder|vater|mutter|papa|mama|kollege|kollegin|kumpel|hund|chef|chefin|nachbar|nachbarin|oma|opa|teamkollege|freundin
		halbe ~1 gruppe|verein|team|mannschaft
		einer|jemand|er|sie ~1 hat|ist|war
		einer ~2 gruppe|truppe|jungs`,
	self: `ich|mir|mich|bin|hab|mein|meine|meinem|meinen`,
	past: `
		#year
		vor ~2 #number|zwei|drei|vier|funf|sechs|sieben|acht|neun|zehn|vielen|ein_paar|paar|zig|langer|jahrzehnten jahren|zeit
		vor jahren|ewigkeiten
		als ~2 kind|jugendlicher|jugendliche|teenager|bub|schuler|junger
		in ~2 jugend|kindheit|schulzeit|schule
		fruher
		letzten|letztes|letzter|letzte ~1 jahr|winter|saison|sommer
		langst ~1 vorbei|weg|ausgeheilt|gut|verheilt
		damals`,
	now:    `heute|jetzt|gestern|wieder|immer_noch|seit_gestern|vorhin|gerade|aktuell|momentan|noch_immer`,
	over:   `langst|ausgeheilt|verheilt|auskuriert|uberstanden|vorbei`,
	unsure: `was wenn`,
	effort: `berg|anstieg|intervall|intervalle|sprint|oben`,
	owns:   `ich auch`,
}
