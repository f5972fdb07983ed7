// Spanish words for the rules on language, without accents. Orders stand as a book says them to `usted`, and as infinitives.
// The rules are those of ASD-STE100, which is for English; the lists: common practice, no source.

import { caseless } from '../../../text/caseless.js';
import { type Language, vagueWords, wordSet } from './language.js';

const orders = wordSet(`
  abra acerque active afloje agarre agregue alce alinee anote apague apoye apriete atornille avance avise baje borre busque
  cambie camine centre coja coloque compare compruebe conecte confirme cuelgue cuente deje desacople desactive desatornille
  desconecte desenchufe desenganche desmonte despliegue destape destrabe devuelva diga elija empuje encienda engrase entre
  escriba espere examine fije gire golpee guarde haga incline inserte introduzca instale lea levante libere limpie llame
  llene lleve lubrique marque meta mida mire monte mueva nivele observe oprima pare pese pida pinte pliegue ponga presione
  pruebe pulse purgue quite rasque raspe registre reemplace repita retire retroceda retorne revise saque seleccione separe
  siga sople suba suelte sujete suspenda tense tire tome trabe trate use vacie ventile verifique vuelva
  abrir activar aflojar agregar alinear anotar apagar apoyar apretar atornillar avanzar avisar bajar borrar buscar cambiar
  centrar colgar colocar comparar comprobar conectar confirmar contar desacoplar desactivar desconectar desenchufar
  desenganchar desmontar elegir empujar encender engrasar entrar escribir esperar examinar fijar girar guardar hacer insertar
  instalar introducir ir leer levantar liberar limpiar llamar llenar llevar marcar medir meter mirar montar mover nivelar
  observar oprimir parar pesar plegar poner presionar probar pulsar purgar quitar raspar registrar reemplazar repetir retirar
  retroceder revisar sacar seleccionar separar soltar soplar subir sujetar tensar tirar tomar trabar usar vaciar verificar volver
`);

const somebody = '(?:quien(?:es)?|alguien|todos|personas?|usted|ustedes|operador(?:es)?|ayudantes?)';

const limb = '(?:manos?|dedos?|brazos?|pies?|piernas?|ojos?|piel|cuerpo|cara|miembros?)';

const endings = /(?:me|te|se|le|les|lo|la|los|las)$/;

/** Small letters without accents; the tilde of `ñ` stays. */
function withoutAccents(word: string): string {
  return word
    .toLowerCase()
    .normalize('NFD')
    .replaceAll(/(?<!n)\u0303|[\u0300-\u0302\u0308\u0301]/g, '')
    .normalize('NFC');
}

/** The order without what hangs on it: `apaguelo` gives `apague`. */
function bare(word: string): string {
  const plain = withoutAccents(word);
  const short = plain.replace(endings, '');
  return !orders.has(plain) && orders.has(short) ? short : plain;
}

/** Spanish, as the rules on language know it. */
export const spanish: Language = {
  bare,
  abbreviations: wordSet('p ej aprox num n no fig figs max min sr sra dr ud uds pag etc vs'),
  orders,
  orderOrThing: wordSet(
    'cierre ajuste arranque toque corte pase embrague enganche acople enchufe bloquee cargue remolque',
  ),
  ordersToPeople: wordSet(`
    anote apriete afloje avise compare compruebe conecte confirme desconecte desenchufe escriba espere instale lea llame
    llevese lleve marque meta mida mire oprima pese pulse presione quite raspe registre revise saque seleccione verifique
  `),
  companions: wordSet('mantenga quede quedese deje cuide recuerde evite use asegure asegurese vea procure'),
  oneMovement: new Map([
    ['pulse', wordSet('mantenga suelte sostenga')],
    ['oprima', wordSet('mantenga suelte sostenga')],
    ['presione', wordSet('mantenga suelte sostenga gire')],
    ['empuje', wordSet('gire mantenga suelte')],
    ['tire', wordSet('gire mantenga suelte')],
    ['mantenga', wordSet('pulse gire presione oprima suelte')],
    ['sostenga', wordSet('pulse gire presione oprima suelte')],
    ['vaya', wordSet('mire busque traiga')],
    ['abra', wordSet('cierre')],
    ['cierre', wordSet('abra')],
    ['suba', wordSet('baje')],
    ['levante', wordSet('baje')],
    ['baje', wordSet('suba levante')],
  ]),
  objects: wordSet(`
    el la los las un una unos unas lo este esta estos estas ese esa cada ambos ambas todo toda todos todas su sus otro
    otra dos tres cuatro
  `),
  particles: wordSet('a hacia'),
  joiners: wordSet('y e luego despues entonces &'),
  adverbs: wordSet('luego despues entonces ahora primero tambien ya solo solamente finalmente'),
  conditions: wordSet(`
    si cuando mientras antes despues una con sin en para desde hasta tras al a por donde de bajo sobre junto durante
  `),
  subordinators: wordSet('hasta que cuando mientras donde si como porque para antes'),
  purposes: wordSet('para a de por sin'),
  negations: wordSet('no nunca nada nadie ningun ninguna jamas'),
  tellers: wordSet(`
    el la los las un una unos unas este esta estos estas esto eso ese esa su sus se usted ustedes hay debe deben cada todo
    toda todos todas ambos nadie nada ningun ninguna alguien es son
  `),
  isParticiple: (word) =>
    /^\p{L}+(?:ando|iendo|yendo)$/u.test(word) &&
    !['cuando', 'blando', 'mando', 'estruendo', 'bando', 'comando', 'contrabando'].includes(word),
  beforeParticiple: wordSet(`
    esta estan este esten estaba siga sigue siguen seguir va van vaya ir continua continue continuar queda quede y o no el la
    un una se que en de a quedan viene vienen lo los las
  `),
  passiveOrder: caseless(
    String.raw`(?<!\p{L})(?:debe|deben|deber[áa]n?|deber[íi]an?|tienen? que|han? de) (?:no |nunca |siempre |primero )*ser (?:\p{L}+mente )?(?:\p{L}+[aiíu]d[oa]s?|puest[oa]s?|abiert[oa]s?|hech[oa]s?|suelt[oa]s?|vuelt[oa]s?|escrit[oa]s?|cubiert[oa]s?)(?!\p{L})`,
  ),
  besideThing: wordSet('con para sin'),
  thingFirst: true,
  doneWith: wordSet('con'),
  doerEndings: /[aei]?dor[ae]?s?$/,
  conditionals: wordSet('si cuando antes donde'),
  watching: wordSet('mire observe revise lea vea examine controle compruebe verifique escuche mida muestre diga'),
  clockwise: /sentido (?:horario|de las agujas)|\bhorario\b/i,
  counterClockwise: /antihorario|contra(?:rio a)? las agujas/i,
  left: /izquierd[oa]/i,
  right: /derech[oa]/i,
  ownEnd: /desde (?:su (?:propi[oa] )?(?:extremo|punta|lado)|el extremo|la punta|afuera)/i,
  threaded: /tornillo|perno|tuerca|espárrago|husillo|tensor/i,
  seenFrom: /vist[oa]s? |mir(?:ad[oa]s?|ando|e) |desde |de frente|frente a /i,
  faced:
    /perilla|botón|volante|manivela|manija|\btapa|tapón|válvula|interruptor|\bdial\b|llave de (?:contacto|paso|arranque)|\b(?:maneje|conduzca|camine)\b/i,
  yes: wordSet('si'),
  no: wordSet('no'),
  kills: caseless(
    `(?<!\\p{L})(?:mata a (?:las? |los )?${somebody}|matar(?:l[aeo]s?|a (?:las? |los )?${somebody})|(?:puede|pueden) morir|muerte|mortal(?:es)?)(?!\\p{L})`,
  ),
  injures: caseless(
    `(?<!\\p{L})(?:(?:aplastar|cortar|quemar|herir|lastimar|atrapar|golpear|cegar|atropellar|lesionar)(?:l[aeo]s?|se)|(?:aplasta|corta|quema|hiere|lastima|atrapa|golpea|lesiona|arranca|atraviesa|(?:aplastar|cortar|quemar|herir|lastimar|atrapar|golpear|lesionar))n? (?:(?:a|una?|las?|los|el|sus?) )*(?:${somebody}|${limb}))(?!\\p{L})`,
  ),
  stepWords: 'pasos?',
  stepJoints: 'y|a|al|o|hasta',
  stepOwners: caseless(String.raw`^\s*(?:de|del|en)(?!\p{L})(?! est[ea] (?:página|pagina|procedimiento))`),
  stepped: caseless(String.raw`(?<!\p{L})(?:dial|perilla|muesca|marcha|palanca|escalera|escala|ajuste)s?(?!\p{L})`),
  setToStep: caseless(
    String.raw`(?<!\p{L})(?:ponga|gire|fije|regule|mueva)(?!\p{L})(?:(?!(?:vaya|vuelva|siga|regrese)).)*(?<!\p{L})al?\s*(?:el\s*)?$`,
  ),
  repeats: caseless(String.raw`(?<!\p{L})(?:repita|repítalo|repita lo)(?!\p{L})[^.]*(?<!\p{L})hasta que(?!\p{L})`),
  counted: caseless(String.raw`(?<!\p{L})(?:como máximo|no más de|a lo sumo|veces|vez|nunca|no)(?!\p{L})`),
  beforehand: String.raw`(?<!\p{L})antes de (?:hacer(?:lo| esto)|empezar|comenzar|esto|este paso|VERB)`,
  going: wordSet('metase acuestese pase entre agachese arrastrese vaya parese pongase camine meta'),
  placeWords: new Map([
    ['debajo', ['abajo']],
    ['junto', ['al lado']],
  ]),
  leavesCab: caseless(String.raw`^(?:baje|bájese|salga|descienda) de la (?:cabina|máquina|cosechadora)(?!\p{L})`),
  cab: 'cabina',
  devices: wordSet('pantalla bascula balanza boleto manometro multimetro cinta cronometro calibre termometro'),
  readOff: caseless(String.raw`(?<!\p{L})(?:en|con|por|del?) (?:(?:el|la|un|una|su) )?(\p{L}+)(?=\s*(?:[.,;:)]|$))`),
  vague: vagueWords({
    'adecuadamente|correctamente|apropiadamente|debidamente|satisfactoriamente|suficientemente|convenientemente|como corresponde|como es debido':
      'what is seen when it is right',
    'adecuad[oa]s?|apropiad[oa]s?|satisfactori[oa]s?|suficientes?|aceptables?|razonables?|convenientes?|conveniente':
      'which one, or how much',
    '(?:seg[úu]n|como|cuando|si|donde) (?:sea|es|fuera|fuese|resulte) (?:necesari[oa]|preciso|posible|conveniente|requerido)|seg[úu]n (?:se requiera|corresponda|proceda|haga falta)|si (?:hace|hiciera) falta|en caso necesario|de ser necesario|si corresponde':
      'what decides it',
    'lo antes posible|en lo posible|cuanto antes': 'what to do where it is not possible',
    'etc|y as[íi] sucesivamente|y dem[áa]s': 'the rest of the list',
    'y/o': '`y` or `o`',
    'peri[óo]dicamente|regularmente|de vez en cuando|ocasionalmente': 'after how many hours or days',
    'excesiv[oa]s?|excesivamente': 'how much is too much',
    'tenga (?:mucho )?cuidado|preste atenci[óo]n|con precauci[óo]n': 'what to keep away from, and how',
  }),
  unmeasured: vagueWords({
    'lentamente|despacio|r[áa]pidamente|r[áa]pido|brevemente|poco a poco|gradualmente': 'a speed or a time',
    'suavemente|firmemente|con fuerza|ligeramente|cuidadosamente|con cuidado':
      'a force, a torque, or what is felt or seen',
    'un poco|unos pocos|unas pocas|algunos|algunas|varios|varias|un rato|un momento|algo de': 'a number',
    'aproximadamente|m[áa]s o menos': 'the two ends between which it may lie',
  }),
};
