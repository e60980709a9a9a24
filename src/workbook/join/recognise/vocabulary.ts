import type { join } from "../../../words/join";

/** What a column can be; the tests by the substance that they measure. */
export type Kind = keyof typeof join.kind;

/** A word of a kind in folded text; `weak`: it counts only where the unit or the values agree. */
export interface KindWords {
  readonly kind: Kind;
  readonly words: RegExp;
  readonly weak?: true;
}

/** Words by which keepers head their columns, English, German, French and Spanish, without accents; the first kind that is met counts. Common usage, no source. */
export const KIND_WORDS: readonly KindWords[] = [
  { kind: "fedBack", words: /\b(?:fed[ -]?back|feed ?back|returned|davon (?:ver|ge)fue?ttert|zurue?ck-?gefue?ttert|algen verfue?ttert|verfue?tterte algen|rue?ck(?:ge)?fue?tter\w*|redonnee?s?|rendue?s?|redistribuee?s?|devuelt[ao]s?|de vuelta|reintroduit\w*)\b/ },
  { kind: "topUp", words: /\b(?:top(?:ped)?[ -]?(?:up|off)|topped[ -]?(?:up|off)|ato|nach(?:ge)?fue?ll\w*|auf(?:ge)?fue?ll\w*|verdunst\w*|evapor\w*|appoint|osmolat\w*|rellen\w*|reposicion)\b/ },
  { kind: "change", words: /\b(?:water[ -]?chang\w*|changed water|water (?:replaced|exchanged?|removed|renewed)|(?:replaced|exchanged|new) water|p?wc|t?ww|(?:teil)?wasserwechsel|wechselwasser|(?:wasser )?gewechselt\w*|wasser (?:getauscht|ersetzt)|wassertausch|frischwasser|(?:chang\w*|chgt|renouvel\w*)\.? d' ?eau|eau (?:changee|renouvelee|remplacee|neuve)|cambios? (?:parcial )?(?:de )?agua|agua (?:cambiada|renovada|nueva)|renovacion de agua|recambio\w*(?: de agua)?)\b/ },
  { kind: "otherIn", words: /\b(?:dos(?:ed|ing|age|ierung|iert|is|ificacion|ificado|ee?)|zugabe|zugegeben|ajoute?e?s?|anadid[ao]s?|other in)\b/ },
  { kind: "totalNitrogen", words: /\b(?:total nitrogen|total n|tn|gesamtstickstoff|azote total|nitrogeno total)\b/ },
  { kind: "harvest", words: /\b(?:harvest\w*|algenernte|ernte\w*|geerntet\w*|abgeerntet|recolt\w*|cosech\w*)\b/ },
  { kind: "harvest", weak: true, words: /\b(?:yield|ertrag|algae|algen\w*|algues?|algas?|scrap(?:e|ed|ings?)|cleaning|growth|aufwuchs|bewuchs|croissance|crecimiento|biomass\w*|reinigung|nettoyage|limpieza)\b/ },
  { kind: "otherOut", words: /\b(?:removed|skim\w*|abschaum\w*|ecum\w*|espuma\w*|adsorber\w*|gfo|media(?= (?:n|p|no[23]|nh[34]|po4|p2o5)\b)|other out)\b/ },
  { kind: "nitrate", words: /\b(?:nitrat\w*|azote nitrique|nitrogeno nitrico|no3|n-no3|no3-?n)\b/ },
  { kind: "nitrite", words: /\b(?:nitrit\w*|no2|n-no2|no2-?n)\b/ },
  { kind: "ammonia", words: /\b(?:ammoni\w*|amoni\w*|nh[34]|n-nh[34]|nh[34]-?n|tan)\b/ },
  { kind: "phosphate", words: /\b(?:ortho-?phos\w*|phosph\w*|fosf[ao]\w*|fosforo|po4|p-po4|po4-?p|p2o5|srp)\b/ },
  { kind: "lightHours", words: /\b(?:light hours|hours (?:lit|of light)|photo-?period\w*|lichtstunden|leuchtstunden|beleuchtungs(?:dauer|zeit)|lichtdauer|(?:heures|duree) (?:de lumiere|d' ?eclairage)|horas (?:de )?luz|fotoperiodo)\b/ },
  { kind: "lightLevel", words: /\b(?:light level|dimm\w*|lichtleistung|lampenleistung|puissance lumineuse|intensidad de luz|intensidad luminosa)\b/ },
  { kind: "light", words: /\b(?:light\w*|par|ppfd|licht\w*|beleuchtung\w*|lumiere|eclairage|luz|lampen?|lampes?)\b/ },
  { kind: "temperature", words: /\b(?:temp|temps?\.?(?= |$|\()|temperatur\w*|wassertemp\w*)\b/ },
  { kind: "ph", words: /\bph\b(?:-wert)?/ },
  { kind: "salinity", words: /\b(?:salini\w*|salzgehalt|salinidad|sal)\b/ },
  { kind: "feed", words: /\b(?:feed\w*|fed|fue?tter\w*|gefue?ttert\w*|verfue?ttert\w*|\w*futter\w*|nourri\w*|aliment\w*|comida|pienso|raciones)\b/ },
  { kind: "food", words: /\b(?:foods?)\b/ },
  { kind: "date", words: /\b(?:date|datum|fecha|day|tag|jour|dia)\b/ },
];

/** The heading asks for the name of a food, not for an amount. */
export const FOOD_NAME_WORDS = /\b(?:(?:food|feed) ?(?:name|type)|type of (?:food|feed)|futter(?:sorte|art|name)|sorte|(?:type|sorte|nom) d' ?aliment|(?:tipo|nombre) de (?:comida|alimento|pienso)|what (?:was )?fed)\b/;

/** Columns that keepers often have and that the account does not use. */
export const IGNORED_WORDS = /\b(?:days? since|tage seit|jours depuis|dias desde|d?kh|gh|alk\w*|alcalin\w*|karbonatharte|calcium|kalzium|calcio|ca|mg(?=\s*\(?ppm|$)|magnesi\w*|kalium|potass\w*|potasio|iron|eisen|fer|hierro|silic\w*|silikat\w*|oxygen|sauerstoff|oxygene|oxigeno|o2|conductiv\w*|leitwert|leitfahigkeit|conductivite|conductividad|orp|redox|tds|notes?|comments?|remarks?|bemerkung\w*|notiz\w*|kommentar\w*|remarques?|commentaires?|observa\w*|notas?|time|uhrzeit|zeit|heure|hora|week(?:day)?|woche\w*|semaine|semana|who|wer|kwh|power|strom\w*|watts?|cost|kosten|cout|coste|fish|fische?|poissons?|peces|weather|wetter|photo|foto|id|no|nr|number)\b/;

/** An amount of what the column before it names. */
export const AMOUNT_WORDS = /^\W*(?:amount|quantity|qty|menge|quantite|cantidad|weight|gewicht|poids|peso)\b/;

/** A count of days names the thing that it counts from, and is none. */
export const COUNTED_DAYS = /\b(?:days? (?:since|until|to)|tage (?:seit|bis)|jours (?:depuis|avant)|dias (?:desde|hasta))\b/;

/** A figure reckoned from others. */
export const COMPUTED_WORDS = /\b(?:totals?|totaux|sum|summe|gesamt\w*|insgesamt|averages?|avg|mean|mittel\w*|durchschnitt\w*|schnitt|moyennes?|moy|somme|cumul\w*|kumul\w*|kumuliert\w*|promedio|media|suma|acumulad\w*|running|rolling|delta|differ\w*|differenz|diff|trend)\b/;

export const RATIO_WORDS = /\b(?:ratio|verhaltnis|rapport|relacion|n ?[:/] ?p|no3 ?[:/] ?po4)\b/;
export const DRY_WORDS = /\b(?:dry|dried|trocken\w*|getrocknet|sec|seche?e?s?|seco|seca)\b/;
export const PRESSED_WORDS = /\b(?:pressed|pressing|squeez(?:ed|ing)|wrung|gepres+t\w*|ausgedrue?ckt\w*|ausgepres+t\w*|pressee?s?|essoree?s?|prensad[ao]s?|exprimid[ao]s?)\b/;
export const DENSITY_WORDS = /\b(?:sg|specific gravity|dichte|densite|densidad|gravity)\b/;

/** Words beside the name of a screen or a food that say nothing of it. */
export const FILLING_WORDS =
  /\b(?:the|of|de|du|des|del|la|le|les|el|los|von|der|die|das|in|en|an|am|per|pro|par|por|and|und|et|y|a|d|l|as|als|drained|wet|fresh|abgetropft\w*|nass|feucht\w*|frisch\w*|egoutt\w*|humide|frais|escurrid[ao]s?|humed[ao]|weight|mass|amount|menge|masse|gewicht|nassgewicht|poids|quantite|peso|masa|cantidad|screens?|scrubber|matten?|gitter|sieb\w*|netz|ecran|grille|tamis|pantalla|malla|filtro?|filtre|filter|algae|algen|algues?|algas?|daily|today|je|taglich|tages\w*|jour|jours|day|days|dia|diaria|tag|total|fish|fische|poissons?|peces|water|wasser|wasserwechsel|eau|agua|value|wert|valeur|valor|test|reading|level|concentration|conc|new|neu|removed|given|kit|probe|measured|gemessen|how|much|many|qty|quantity|distribue\w*|donnee?s?|dado|pesado|mesuree?|medid[ao]|dry|frozen|food|feed|foods)\b/g;

/** Whole words of which a slip or a beginning ("Wasserw.") is worth a question. */
export const SLIP_WORDS: readonly (readonly [string, Kind])[] = [
  ["nitrate", "nitrate"], ["nitrat", "nitrate"], ["nitrato", "nitrate"], ["nitrite", "nitrite"], ["ammonium", "ammonia"], ["ammonia", "ammonia"], ["phosphate", "phosphate"], ["phosphat", "phosphate"], ["fosfato", "phosphate"],
  ["harvest", "harvest"], ["ernte", "harvest"], ["recolte", "harvest"], ["cosecha", "harvest"], ["feeding", "feed"], ["futter", "feed"], ["nourriture", "feed"], ["comida", "feed"],
  ["wasserwechsel", "change"], ["changement", "change"], ["temperature", "temperature"], ["temperatur", "temperature"], ["temperatura", "temperature"], ["salinity", "salinity"], ["salinite", "salinity"], ["salinidad", "salinity"],
];

/** Fed to the animals, or harvested and fed to them: the one word for both. */
export const FED_EITHER = /\bverfue?ttert\w*/;

/** The screen itself: a weight under it is most likely a harvest. */
export const SCREEN_WORDS = /\b(?:screens?|scrubber|matten?|gitter|ecran|grille|tamis|pantalla|malla)\b/;

/** Words that make another thing of a column: an aim, other water, another place or time, a rate, a part of the figure. Each is worth a question. */
export const QUALIFYING_WORDS =
  /\b(?:targets?|goal|aim|ziel\w*|soll\w*|cible|objecti?fs?|objetivo|meta|planned|plan|geplant\w*|prevue?s?|previst\w*|expected|erwartet\w*|attendue?s?|esperad\w*|predicted|forecast|limit\w*|grenzwert|tap|leitung\w*|robinet|grifo|source water|new water|frischwasser|neuwasser|eau neuve|agua nueva|room|raum\w*|zimmer\w*|air|luft\w*|ambient\w*|uncertainty|unsicherheit|incertitude|incertidumbre|error|fehler|erreur|min|max|minimum|maximum|tare|tara|bucket|eimer|seau|cubo|area|flache|surface|superficie|cost|price|kosten|preis|prix|precio|before|after|vor|nach|avant|apres|antes|despues|change in|anderung|variation|cambio de (?!agua)|tank \d+|becken \d+|bac \d+|acuario \d+|sump|per fish|je fisch|pro fisch|par poisson|por pez|per week|weekly|pro woche|wochentlich\w*|par semaine|hebdo\w*|semanal\w*|yesterday|gestern|hier|ayer|protein\w*|proteines?|content|gehalt(?! an)|teneur|contenido)\b|\/ ?(?:week|woche|semaine|semana|fish|fisch|m2)\b/;

/** A figure turned into another form by a factor: x 4.43, * 0.33, / 3.07. */
export const FACTOR_WORDS = /[x*×÷] ?\d|\/ ?\d[.,]\d/;
