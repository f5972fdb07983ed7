// How wide the signs of the cards' faces are at most. Made by tests/scripts/widest-signs.mjs; change the faces, not this file.

/** In thousandths of the size, and the signs of which none takes more, whatever follows it. U+FFFF stands for all others. */
export const widestSigns: readonly (readonly [width: number, signs: string])[] = [
  [0, '\u00ad'],
  [200, "'|¦"],
  [250, ',;·′'],
  [300, '.:Iij°²³¹ÌÍÎÏìíîï'],
  [350, ' !\u00a0‘’¡‚'],
  [400, '"fltªº″'],
  [450, '()-J[r‹›'],
  [475, 's'],
  [500, '=]cz“”¢§„↑↓'],
  [521, 'ç'],
  [550, '$*/?FLS\\_`ekvxy–£¨©®¯´¸¿èéêë÷ýÿˆ˚˜−'],
  [575, 'a'],
  [600, '+CEKPTYZbdghnopqu}±¤¥ÈÉÊËÝàáâãäåñòóôõöøùúûüþ•'],
  [649, '{'],
  [650, '0123456789<>ABRVXµÀÁÂÃÄÅÇÐÞßð\uffff'],
  [700, '&DGHU«¶»ÙÚÛÜ€'],
  [750, 'N^w~…¼½¾Ñ'],
  [800, 'OQ×ÒÓÔÕÖØ'],
  [850, '#¬Ææ™'],
  [900, '%Mm'],
  [950, 'Wœ'],
  [1000, '@Œ'],
  [1050, '—'],
];
