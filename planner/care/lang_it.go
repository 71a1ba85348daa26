package care

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
