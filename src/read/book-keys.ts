// The keys of the book format. Used only to tell a key from a word of a sentence; what they mean stands elsewhere.

const keys = `
  accuracy adjust adjusters agree also answers any-order applies ask at at-most avoid base-moisture because built-in by
  card cards choices code columns conditions content counts customer decision do due else ends energized equals events except expect
  figure file fleet for-each from gives go harm hazard hazards headers header hands-on hold how id if-missed inside
  instruments is jobs keep-away key kind label language languages leaves limits machine machines mark mass means measure
  moves moves-when must name needs never next nominal not note on only option options otherwise owner
  parameters people phone photo physics positive printed procedure quantity range read-at read-with requires resolution restore
  results review-every reviewed revision rigs rows rules run safe second-person serial serials severity sets shown-by skill
  smallest software source stale start state states status steps summary supplies tell terms text that then
  throughout time title tools total translates type unchanged unit units url use value values verified versions voided-by wait
  waiting waive watch what when why within words worksheets alt no yes outside low high unsure fault
`;

const known: ReadonlySet<string> = new Set(keys.split(/\s+/).filter((key) => key !== ''));

/** Whether a word is a key of the book format. */
export function isBookKey(word: string): boolean {
  return known.has(word);
}
