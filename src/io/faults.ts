// What can be wrong with a file before anybody reads its words. Wording only.

import { type Diagnostic, diagnose } from '../diagnostic/diagnostic.js';
import type { Decoded } from '../text/decode.js';

function fault(code: string, path: string, words: { message: string; help: string }): Diagnostic {
  return diagnose({ code, severity: 'error', at: { file: path, start: 0, end: 0 }, ...words });
}

/** Reasons that the system gives, in plain words; others as it names them. */
const reasons: Readonly<Record<string, string>> = {
  EACCES: 'this user may not read it',
  EPERM: 'this user may not read it',
  ENOENT: 'it is not there any more',
  ELOOP: 'it is a link that leads back to itself',
  EIO: 'the disk reports an error',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
};

/** The system's reason behind a thrown error. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return reasons[code] ?? (code !== '' ? `the system says \`${code}\`` : String(error));
}

export function unreadableFile(path: string, reason: string): Diagnostic {
  return fault('unreadable-file', path, {
    message: `\`${path}\` cannot be read: ${reason}`,
    help: 'Let this user read it, mend the link, or take it out of the book.',
  });
}

export function fileTooLarge(path: string, size: { bytes: number; most: number }): Diagnostic {
  const figure = path.startsWith('figures/');
  return fault('file-too-large', path, {
    message: `\`${path}\` has ${megabytes(size.bytes)}, expected at most ${megabytes(size.most)}`,
    help: figure
      ? 'Save the picture smaller: a phone shows no more than some 2,000 pixels across.'
      : 'Cut it into several files, or take out what is no text of the book.',
  });
}

function megabytes(bytes: number): string {
  return `${(Math.ceil(bytes / 100_000) / 10).toFixed(1)} MB`;
}

export function notText(path: string, decoded: Exclude<Decoded, { kind: 'text' }>): Diagnostic {
  if (decoded.kind === 'binary') {
    return fault('not-text', path, {
      message: `\`${path}\` is no text: byte ${decoded.byte} is 0, and no text has one`,
      help: 'Save it as plain text in UTF-8, or take it out of the book.',
    });
  }
  const what =
    decoded.kind === 'utf-16'
      ? 'it is in UTF-16'
      : `byte ${decoded.byte} (line ${decoded.line}) belongs to no letter in UTF-8`;
  return fault('not-utf-8', path, {
    message: `\`${path}\` is not written in UTF-8: ${what}`,
    help: 'Open it in your editor and save it with the encoding UTF-8.',
  });
}

export function emptyFile(path: string): Diagnostic {
  return fault('empty-file', path, {
    message: `\`${path}\` is empty`,
    help: 'Write it, or delete the file. `stepgauge new` makes one to begin with.',
  });
}

export function linkOutOfBook(path: string): Diagnostic {
  return fault('link-leaves-book', path, {
    message: `\`${path}\` is a link to a place outside the book, and is not read`,
    help: 'Put a copy into the book in its place, so that the book is whole wherever it is copied to.',
  });
}

export function linkedFolder(path: string, target: string, isLoop: boolean): Diagnostic {
  return fault(isLoop ? 'link-loop' : 'linked-folder', path, {
    message: isLoop
      ? `\`${path}\` is a link to ${target}, which it stands in: reading it would never end`
      : `\`${path}\` is a link to ${target}, a folder of the book: all in it would be read twice`,
    help: 'Delete the link.',
  });
}

export function sameNames(path: string, other: string): Diagnostic {
  return fault('name-differs-in-case', path, {
    message: `\`${path}\` and \`${other}\` differ in capitals or accents alone: on some computers they are one file`,
    help: 'Rename one of them.',
  });
}

export function foldersTooDeep(path: string, most: number): Diagnostic {
  return fault('folders-too-deep', path, {
    message: `\`${path}\` lies more than ${most} folders deep, and is not read`,
    help: 'Move it further up.',
  });
}

/** A file whose ending shows that its author takes it for a part of the book, which it is not. */
export function unreadEnding(path: string, expected: string): Diagnostic {
  const diagnostic = fault('unread-file', path, {
    message: `\`${path}\` is not read: a file of a book ends in \`${expected}\``,
    help: `Rename it to \`${path.replace(/\.[^./]*$/, expected)}\`.`,
  });
  return { ...diagnostic, severity: 'warning' };
}

/** A text that stands among the releases or the records, where nothing of the book is read. */
export function unreadAmongKept(path: string, folder: string): Diagnostic {
  const holds = folder === 'releases' ? 'what was released' : 'records of jobs';
  const diagnostic = fault('unread-file', path, {
    message: `\`${path}\` is not read: \`${folder}/\` holds ${holds}, and no part of the book`,
    help: 'Move it to another folder of the book, or out of the book.',
  });
  return { ...diagnostic, severity: 'warning' };
}
