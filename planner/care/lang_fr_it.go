package care

var french = speech{
	lang: French,
	meanings: []group{
		{Emergency, Stop, false, `
			douleur|douleurs|oppression|pression|serre|serree|serrement|point|poids|brulure|pince|etau|mal|pincement|compression|gene <5> poitrine|thorax|sternum|coeur
			poitrine ~3 serre|serree|fait_mal|brule|comprimee|oppressee
			oppresse|oppressee
			douleur|douleurs|oppression|gene|pression|constriction|serrement|poids|brulure ~2 thoracique|thoraciques|retrosternale|pectorale
			thoracique|thoraciques ~2 douleur|douleurs|oppression|gene|pression
			dyspnee|hemoptysie|cyanose|hypoglycemie_severe|anaphyla*|choc_allergique
			hemorragie*|saigne ~3 arrete|arreter|abondamment
			accident ~1 vasculaire
			attaque cardiaque|cerebrale
			sens|sentais ~1 plus ~3 bras|jambe|main|visage|cote|doigts|pied
			epileptique|tetanie
			infarctus|angine_de_poitrine|arret_cardiaque
			crise cardiaque
			evanoui|evanouie|evanouis|evanouir|syncope|malaise|malaises
			perdu|perte|perds ~2 connaissance|conscience
			tombe|tombee dans ~1 pommes
			dans ~1 pommes
			tourne ~1 oeil
			voile noir
			trou noir
			ecroule|ecroulee|effondre|effondree
			mal|difficulte|difficultes|peine ~2 respirer
			arrive|arrivais|peux|pouvais|arrivait ~3 respirer
			essouffle|essoufflee|souffle ~6 repos|assis|assise|canape|lit|rien|allonge|couche
			du mal ~1 respirer
			manque ~2 air|souffle
			souffle ~1 court ~3 repos|assis|lit
			respire|respirer mal
			etouffe|suffoque
			crache|crachats|tousse|craches|toussant|toux ~3 sang
			sang ~4 crachant|toussant|toux|tousse|crachats|crache
			confus|confuse|desoriente|desorientee|delire|confusion
			savais|sais|souviens ~3 plus ~2 ou|quel|quelle|qui|comment
			crise ~2 epilepsie
			convuls*|epilepsie|convulse
			avc|ictus
			bouche|visage|levre ~3 travers|paralyse|engourdi|tombe|engourdie|tordue|deforme
			bras|jambe|main|cote ~4 engourdi|engourdie|paralyse|endormi|fourmis|mort|fourmillements|paralysee|endormie
			bras gauche ~3 mal|engourdi|douleur|fourmille
			arrivais|arrive|pouvais|peux ~3 parler
			parler ~2 bizarre|plus
			vois|voyais|voir double
			coup ~2 chaleur|chaud ~6 confus|frissons|malaise|tourne|vomi
			coup de chaleur
			insolation
			transpire|transpirais|sue|transpirer ~2 plus
			palpitations|coeur <<8>> vertige|vertiges|malaise|evanoui*|tournait|tourne|souffle`},
		{Head, Stop, false, `
			tete|crane|front|tempe|casque <6> tape|cogne|cognee|frappe|choc|heurte|coup|tapee|tape_par|bosse|percute|pris_un|contre|claque
			coup ~2 tete|crane
			tombe|tombee|chute|atterri ~2 sur ~1 tete|crane|casque|menton|figure|visage
			traumatisme|trauma|choc|contusion|hematome ~1 cranien|cranienne|tete|cerebral|cerebrale
			trauma cranien
			commotion*|comotion*
			casque ~4 fendu|casse|fissure|fele|pete|explose|brise|foutu|mort|morceaux|deux|hs|ouvert|enfonce|abime|fracasse
			chute|tombe|tombee|gamelle|boite|crash|vol_plane <<14>> mal_de_tete|mal_au_crane|tete|crane|nausee|nausees|vertige|vertiges|souviens|memoire|vomi|lumiere|etourdi|floue
			mal ~2 crane
			vu|vois|voyais ~2 etoiles
			36 chandelles
			ko|assomme|assommee|sonnee
		suis|etais|ete|peu|bien|reste|encore|tres = sonne
		sonne ~4 chute|casque|tombe|tete`},
		{Doctor, Stop, false, `
			coeur ~2 bat ~4 importe|bizarre|bizarrement|irregulier|fou|travers|drole|sauts
			palpitation|palpitations|arythmie|tachycardie|extrasystoles|fibrillation
			coeur ~4 saut|sauts|saute|rates|rate|bat_vite|bat_fort|emballe|irregulier|chamade|deraille|cogne|bizarre|affole|palpite|battements
			coeur ~2 fait ~3 sauts|bonds|rates
			poignet|clavicule|cote|cotes|bras|doigt|main|coude|cheville|epaule|jambe|pied|pouce|scaphoide|nez|orteil|hanche|bassin <5> casse|cassee|fracture|pete|petee|fele|felee|fissure|fissuree|brise|fracturee|demis|deboite|luxe|luxee|casses|cassees
			fracture|fractures|luxation
			poignet|cheville|main|coude|doigt|clavicule ~4 gonfle|enfle|double|gonflee|enflee
			radio ~3 poignet|bras|coude|main|epaule
			platre|attelle
			bronchite|pneumonie|pleuresie|pneumopathie|myocardite|pericardite|mononucleose|phlebite|embolie
			infection ~1 pulmonaire|poumons|bronches
			antibio|antibiotique|antibiotiques|antibios
			doc|docteur|medecin|toubib|kine|cardio|cardiologue|chirurgien|hopital|generaliste|urgences|urgentiste ~6 repos|arret|arreter|interdit|pas|jours|semaines|stop|aucun|defendu|dispense|interdiction|total
			arret ~2 sport|maladie
			troubles|trouble ~2 rythme
			souffle au coeur
			opere|operee|operation`},
		{Rest, Stop, false, `
			fievre|fievres|febrile|fievreux|frissons
			#degrees ~2 fievre
			grippe|covid|angine|corona
			toux|tousse|tousser|glaires|crache_vert
			vomi|vomis|vomir|vomissements|gastro|gastros|diarrhee|diarhee|chiasse|courante|intoxication|gerbe|gerber|turista
			mal ~2 ventre|estomac|bide
			courbatures ~3 partout
			courbature|courbaturee ~2 partout
			mal partout
			malade|nausee|nausees|mal_de_tete|migraine|vertige|vertiges
			mal|douleur|douleurs|bloque ~2 genou|dos|hanche|cheville|epaule|tendon|achille|mollet|cou|lombaires|nuque|pied|ischio|adducteur|poignet|coude|cotes|tete
			genou|dos|hanche|tendon|achille|cheville|epaule|lombaires ~4 mal|douleur|bloque|lance|gonfle|coince|pique|tire|douloureux|enflamme
			tendinite|sciatique|lumbago|entorse|dechirure|claquage|contracture|elongation|blesse|blessee|blessure`},
		{Easy, Stop, false, `
			rhume|enrhume|enrhumee|nez_qui_coule|nez_bouche|eternue|mal_de_gorge|mal_a_la_gorge|gorge_irritee
			nez ~2 bouche|coule|pris
			mal ~3 gorge
			gorge ~2 gratte|irritee|pique`},
		{Talk, Stop, false, `
			envie ~2 mourir|vivre|en_finir|etre_la|disparaitre|me_tuer
			plus ~2 envie ~3 vivre|la|rien|continuer_a_vivre|etre
			veux|voudrais|vouloir ~1 mourir|en_finir|disparaitre
			veux plus ~2 vivre|etre|reveiller
			en finir
			suicide*|suicider|foutre_en_lair|scarifie*|scarification*
			me ~2 tuer|mutile|coupe_encore|scarifie
			mieux ~2 sans moi
			sert ~2 rien ~2 vivre
			fais|faire|faisais ~1 vomir
			vomir|vomis ~3 apres|expres ~3 repas|manger|diner
			vomis|vomir ~1 expres
			doigts ~3 gorge
			anorex*|boulim*|trouble_alimentaire|troubles_alimentaires|laxatif|laxatifs
			peur ~2 manger|grossir
			mange ~3 rien|plus|presque ~4 jours|poids|leger|legere|maigrir|perdre
			meriter|merite ~2 manger|repas`},
	},
	figures: `
		crache|cracher|craches ~1 poumons
		mourir|mort|morte|meurs ~2 rire|envie|faim|soif|chaud|froid
		bosse|col|montee|cote|pente|mur ~2 tue|tuee|tuer|achevee|acheve
		failli mourir
		creve ~2 deux|trois|une_fois|boulot|arriere|avant
		coup ~2 oeil|pedale|main|frais|barre
		coup de tete
		chute ~1 libre
		vent ~2 face
		mal ~2 jambes|cuisses|mollets|fesses|cul
		ceinture cardio
		ca ~1 rend malade
		tete ~2 course|peloton|groupe|dans_le_guidon
		chaine|rayon|cadre|selle|derailleur ~2 casse|cassee|petee|pete
		rayon|chaine ~1 casse
		casse ~1 chaine|rayon
		casse croute|cou|pattes|gueule
		coup de coeur
		coeur ~2 joie|ouvrage|coeur_leger`,
	not: `
		pas|aucun|aucune|sans|jamais|ni|rien|nulle|nul`,
	hollow: `
		pas ~1 sur|bien|bon|seulement|rouler|roule|dormi|top|terrible|trop|si
		pas ~3 respirer|parler|vivre
		rien ~1 de|mange|avale
		plus|pas ~2 envie
		sans ~1 raison`,
	others: `
		mon|ma|mes|un|une|le|la|notre|son|sa frere|soeur|femme|mari|fille|fils|pere|mere|pote|potes|copain|copine|collegue|collegues|ami|amie|enfant|enfants|chien|chat|chef|patron|voisin|voisine|coequipier|coequipiere|papa|maman|bebe|gosse|gamin|petit|petite|conjoint|conjointe|belle|beau|mec|gars|entraineur|coach
		frere|soeur|femme|mari|fille|fils|pere|mere|pote|copain|copine|collegue|coequipier|voisin|papa|maman|chien|gosses
		moitie ~2 club|groupe|peloton
		il|elle|quelquun|un_type`,
	self: `je|j|jai|jsuis|jme|moi|mon|ma|mes|m`,
	past: `
		#year
		il ~1 y ~1 a ~3 ans|annees|decennies|longtemps|an
		ya ~2 ans|annees
		quand ~2 etais ~2 petit|petite|gamin|gosse|enfant|ado|jeune
		dans ~2 jeunesse|enfance
		enfant|ado ~1 deja
		annee|saison|hiver|ete derniere|dernier|passee
		a epoque
		gueri ~1 depuis
		depuis longtemps
		plus ~3 souci|soucis|rien|probleme|problemes ~1 depuis`,
	now:    `aujourdhui|maintenant|hier|encore|ce_matin|ce_soir|cette_semaine|cette_nuit|toujours|depuis_hier|matin`,
	over:   `gueri|guerie|remis|retabli`,
	unsure: `et_si|au_cas_ou`,
	effort: `bosse|sommet|sprint|col`,
	owns:   `moi_aussi`,
}

var italian = speech{
	lang: Italian,
	meanings: []group{
		{Emergency, Stop, false, `
			dolore|dolori|fitta|fitte|oppressione|pressione|peso|stretta|bruciore|morsa|costrizione|punta <5> petto|torace|cuore|sterno
			male|duole|stringe|brucia ~3 petto
			petto ~4 male|stringe|brucia|chiuso|pesante|stretto|duole|oppresso
			infarto|attacco_cardiaco|angina_pectoris|arresto_cardiaco
			dolore|dolori|oppressione|fastidio|peso|senso_di_peso|costrizione ~2 toracico|toracici|toracica|retrosternale|precordiale
			dispnea|emottisi|anafila*|emorragia*|ischemia
			accidente ~1 vascolare
			non ~1 sento|sentivo ~2 braccio|gamba|mano|faccia|lato|piede
			svenuto|svenuta|sveno|svenire|svenimento|sviene|svenendo|svengo|sincope|collassato|collassata|collasso|mancamento
			perso|perdita|perdere ~2 sensi|conoscenza|coscienza
			privo di sensi
			caduto|crollato ~2 terra ~3 svenuto|secondi
			visto|vedevo|vista|vedere ~2 nero|annebbiata|buio
			manca|mancava|mancanza ~2 aria|fiato|respiro ~8 riposo|seduto|divano|letto|fermo|sdraiato|casa
			manca ~1 aria|respiro
			non|fatica|faccio_fatica|difficolta|fatico ~3 respirare|respiro
			affanno ~5 riposo|seduto|divano|letto
			soffoco|soffocare|soffocando
			tossito|tosso|tossire|sputato|sputo|tosse|espettorato|sputare ~3 sangue
			sangue ~3 tosse|tossendo|sputo|tossire
			confuso|confusa|disorientato|disorientata|confusione
			non ~1 sapevo|ricordavo|ricordo|so ~2 dove|chi|come|strada
			convulsioni|convulsione|epilessia|epilett*
			crisi ~1 epilettica|convulsiva
			ictus|tia
			bocca|faccia|viso|labbro ~3 storta|addormentata|paralizzata|intorpidita|storto|cadente|addormentato
			braccio|gamba|mano|lato ~4 addormentato|addormentata|intorpidito|formicola|formicolio|paralizzato|informicolato|insensibile
			braccio sinistro
			non ~1 riuscivo|riesco ~2 parlare
			parlavo|parlare|parlo ~1 strano|male|impastato
			vedo|vedevo|vista doppio|doppia
			colpo ~2 calore|sole
			insolazione
			smesso ~2 sudare
			palpitazioni|cuore <<8>> svenuto|vertigini|capogiri|girava|fiato|petto|svenire`},
		{Head, Stop, false, `
			male ~1 alla testa ~4 cad*|botta
		fatto male ~2 testa
		battuto|picchiato|sbattuto|botta|colpo|urtato|caduto|preso|zuccata|testata|bernoccolo|batto|sbatto|atterrato|botte|picchiata <6> testa|capo|fronte|tempia|nuca|zucca|cranio
			testa ~3 contro|asfalto|terra|muro
			casco ~4 rotto|rotta|crepato|crepa|spaccato|ammaccato|distrutto|incrinato|rotti|aperto|andato|sfondato|spezzato|fesso|crepe
			rotto|spaccato|crepato ~2 casco
			commozione ~1 cerebrale
			commozione|concussione
			trauma ~1 cranico
			caduta|caduto|caduta|cadendo|volo|botta <<14>> gira|vertigini|nausea|mal_di_testa|vomitato|ricordo|testa|stordito|stordita|luce|rintronato
			visto|vedo|vedevo ~2 stelle|stelline`},
		{Doctor, Stop, false, `
			palpitazione|palpitazioni|aritmia|aritmie|tachicardia|extrasistole|extrasistoli|fibrillazione|cardiopalmo
			cuore ~4 salta|salti|saltato|impazzito|galoppa|corre|tuffi|irregolare|batte_forte|capriole|tuffo|a_mille|sfarfalla|sfarfallio|matto|saltella
			battiti|battito ~2 irregolare|irregolari|salta|strani|persi
			batte|batteva ~2 irregolare|irregolarmente|male|strano
			clavicola|polso|costola|costole|braccio|dito|mano|gomito|caviglia|spalla|piede|gamba|pollice|anca|naso|scafoide|osso <5> rotto|rotta|rotte|frattura|fratturato|fratturata|incrinata|incrinato|spezzato|lussato|lussata|ruppi|rompere|slogato|fratturati|incrinate
			frattura|lussazione|fratture|microfrattura
			polso|caviglia|mano|gomito|dito ~4 gonfio|gonfia|viola
			radiografia|lastra|gesso|ingessato|tutore
			bronchite|polmonite|miocardite|pericardite|mononucleosi|embolia|trombosi|pleurite
			infezione ~2 polmoni|respiratoria|petto|bronchi|polmonare
			antibiotico|antibiotici
			medico|dottore|dottoressa|cardiologo|fisio|fisioterapista|ortopedico|ospedale|chirurgo|dott ~6 riposo|fermo|fermarmi|niente|stop|non|giorni|settimane|settimana|vietato|ferma|fermata|proibito
			riposo ~1 assoluto
			operato|operata|operazione|intervento`},
		{Rest, Stop, false, `
			febbre|febbricola|febbrone|febbricitante|brividi|febbriciattola
			influenza|covid|corona|influenzato|influenzata
			tosse|tosso|tossisco|catarro
			vomitato|vomito|vomitando|vomitare|gastroenterite|gastro|diarrea|cagotto|cacarella|intossicazione|cagarella
			mal ~2 pancia|stomaco
			ossa rotte
			male ~1 tutto
			dolori ~3 tutto|ovunque|dappertutto
			malato|malata|ammalato|ammalata|nausea|vertigini|capogiri|emicrania|giramenti
			mal ~2 testa|schiena|ginocchio|ginocchia|gola_e_tosse|collo|spalla|orecchio|ossa
			male|dolore|dolori|fitta|fastidio ~3 ginocchio|schiena|anca|caviglia|spalla|tendine|achille|collo|polpaccio|inguine|polso|gomito|costole|piede|lombare|testa|ginocchia
			ginocchio|schiena|anca|caviglia|spalla|tendine|achille ~4 male|dolore|gonfio|bloccata|infiammato|duole|fastidio|bloccato|fitte|distrugge
			tendinite|sciatica|lombalgia|distorsione|stiramento|strappo|contrattura|infortunio|infortunato|infortunata|lombaggine`},
		{Easy, Stop, false, `
			raffreddore|raffreddato|raffreddata|starnuti|starnutisco
			mal ~2 gola
			gola ~2 irritata|brucia|arrossata
			naso ~2 chiuso|cola|tappato`},
		{Talk, Stop, false, `
			non ~2 voglio ~2 vivere|esserci|svegliarmi|esistere
			voglio|vorrei|voglia_di ~1 morire|sparire|farla_finita|ammazzarmi
			voglia ~2 vivere
			farla finita
			togliermi ~2 vita
			ammazzarmi|uccidermi|suicid*|autolesion*
			mi ~1 taglio|tagliato|tagliata ~2 braccia|ancora|di_nuovo
			meglio ~1 senza me
			senso ~2 vivere|vita
			faccio|fare|farmi ~1 vomitare
			mi faccio vomitare
			dita ~3 gola
			vomito|vomitare|vomitato ~2 apposta
			vomito ~2 dopo ~3 pasto|mangiare|cena|pasti
			anoress*|bulimi*|disturbo_alimentare|disturbi_alimentari|lassativi
			paura ~2 mangiare|ingrassare
			non ~1 mangio|mangiato ~4 giorni|peso|leggero|leggera|dimagrire`},
	},
	figures: `
		salita|muro|rampa|strappo|prezzo ~2 infarto
		da infarto
		spaccacuore|spaccagambe
		morto|morta|morire|muoio ~2 contento|contenta|voglia|ridere|fame|sete|caldo|felice
		mal|male ~2 gambe
		gambe ~3 dure|morte|bruciano|male|pesanti|distrutte|spaccate
		rotta|rotto|spezzata|ruppi ~2 catena|raggio|cambio|telaio|cavo
		catena|raggio|telaio ~2 rotta|rotto|spezzata
		vento ~2 testa|contro|faccia
		testa ~2 gruppo|corsa
		fiatone|fiato ~3 salita|cima
		cuore ~2 gola|mano
		colpo ~2 pedale|reni|fortuna
		a testa
		febbre ~2 gara|corsa
		salita ~3 uccis*|ammazzat*|massacrat*`,
	not: `non|nessun|nessuna|nessuno|niente|senza|mai|ne|nulla|neanche|nemmeno`,
	hollow: `
		non solo|molto|so
		non ~1 riesco|riuscivo|dormo|posso|esco|vado
		niente ~1 di|grave
		niente bici|allenamento|giro|corsa
		non ~2 dormito|allenato|pedalato|respirare|respiro|respirava`,
	others: `
		mio|mia|un|una|il|la|suo|sua|nostro|i|miei fratello|sorella|moglie|marito|figlia|figlio|figli|padre|madre|papa|mamma|amico|amica|compagno|compagna|collega|cane|gatto|capo|vicino|vicina|nonno|nonna|fidanzata|fidanzato|ragazza|ragazzo|suocera|cugino|cugina|bambino|bambina|bimbo|bimba|allenatore|piccolo|piccola
		fratello|sorella|moglie|marito|figlia|figlio|padre|madre|papa|mamma|amico|compagno|collega|fidanzata|nonno|nonna|bimbo|bimba
		meta ~2 gruppo|squadra|club
		lui|lei|qualcuno`,
	self: `io|mi|ho|mio|mia|sono|son|sento|faccio`,
	past: `
		#year
		#number|due|tre|quattro|cinque|sei|dieci|molti|tanti|venti|quindici|otto|sette anni ~1 fa
		anni fa
		da ~1 bambino|bambina|piccolo|piccola|ragazzo|ragazza|ragazzino|giovane
		quando ~1 ero
		anno|inverno|stagione|estate scorso|scorsa
		acqua passata
		tempo fa`,
	now: `oggi|adesso|ora|ieri|ancora|di_nuovo|stamattina|stasera|stanotte|sempre|questa_settimana|ultimamente`,
	over: `
		ora_a_posto|tutto_a_posto
		ora ~1 tutto
		guarito|guarita|passata|recuperato`,
	unsure: `e_se|nel_caso`,
	effort: `salita|cima|sprint|rampa`,
	owns:   `anche_io|anchio`,
}
