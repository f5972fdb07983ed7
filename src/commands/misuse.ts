// A call that cannot be carried out as it was made: exit 2, with what was wrong in one sentence. No fault of the book.

export class Misuse extends Error {}
