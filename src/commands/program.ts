// The program as a function: reads the call, hands it to one command, and turns what comes of it into an exit code.
// Commands that check a book are loaded when they are called: what they are made of takes longer to load than to explain a code.

import { Command, CommanderError, Option } from 'commander';
import { FileProblem } from '../io.js';
import { runCalc } from './calc.js';
import { runExplain } from './explain.js';
import { Misuse } from './misuse.js';
import { type Kind, kinds, runNew } from './new.js';
import { formats } from './options.js';
import type { Terminal } from './terminal.js';
import { version } from './version.js';

/** Exit codes: 0 clean, 1 errors found, 2 misuse, 3 a fault of ours. */
type Exit = (code: number) => void;

function program(terminal: Terminal, finish: Exit): Command {
  const stepgauge = new Command('stepgauge')
    .description(
      'A compiler for service procedures: checks a book like code, then makes a phone site and cab cards of it.',
    )
    .version(version())
    .exitOverride()
    .showHelpAfterError('(--help lists what there is)')
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err });
  const bookCommand = (name: string, summary: string): Command =>
    checking(
      stepgauge
        .command(name)
        .argument('[BOOK]', 'the folder of the book; without it the nearest one')
        .description(summary),
    );

  bookCommand('check', 'Everything short of writing: prints what is wrong, and a one-line summary.')
    .option('--waived', 'list the warnings that waivers cover instead')
    .option('--fix', 'mend what can be mended without asking: no digit, unit or word is changed', false)
    .option('--proof [file]', 'write what the order proof did, as JSON; without a file it is printed')
    .action(async (book, options) => {
      const { runCheck } = await import('./check.js');
      finish(runCheck(book, options, terminal));
    });
  bookCommand(
    'build',
    'Check, then write the site, its search, the cards and data/book.json. Errors leave the old output untouched.',
  )
    .option('--out <dir>', 'where to write', 'public')
    .option('--drafts', 'pages and cards for drafts too, marked so', false)
    .option('--guard', 'try the slips of a typing hand as well, and write staff/guard.html about them', false)
    .action(async (book, options) => {
      const { runBuild } = await import('./build.js');
      finish(await runBuild(book, options, terminal));
    });
  bookCommand(
    'serve',
    'Build, drafts included, serve the result on the loopback address, and build again when the book changes.',
  )
    .option('--port <number>', 'the port to listen on; one that is taken gives way to a free one', '8321')
    .action(async (book, options) => {
      const { runServe } = await import('./serve.js');
      finish(await runServe(book, options, terminal));
    });
  bookCommand('cards', 'Check, then write the cards alone.')
    .option('--out <dir>', 'where to write', 'cards')
    .option('--machine <id>', 'only for this machine')
    .option('--unit <id>', "only for this customer's unit")
    .option('--procedure <id>', 'only of this procedure')
    .option('--language <code>', 'only in this language of the book')
    .option('--issue <for>', 'enter them in issued.yaml as given to this person or place, for `reprint`')
    .action(async (book, options) => {
      const { runCards } = await import('./cards.js');
      finish(runCards(book, options, terminal));
    });
  checking(
    stepgauge
      .command('export')
      .description(
        'Check, then write one procedure as single files that need neither the site nor signal: for a stick or a mail.',
      )
      .argument('<procedure>', 'the id of the procedure')
      .argument('[BOOK]', 'the folder of the book; without it the nearest one'),
  )
    .option('--out <dir>', 'where to write', 'export')
    .option('--language <code>', 'only in this language of the book')
    .option('--drafts', 'also where the procedure is a draft', false)
    .action(async (procedure, book, options) => {
      const { runExport } = await import('./export.js');
      finish(runExport(book, { ...options, procedure }, terminal));
    });
  stepgauge
    .command('guard')
    .argument('[BOOK]', 'the folder of the book; without it the nearest one')
    .description(
      'Which slips of a typing hand would go unnoticed: changes each number, unit, state, step and name, and checks.',
    )
    .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--sample <number>', 'try only so many slips, drawn by the seed')
    .option('--seed <number>', 'what the sample is drawn by', '1')
    .option('--min <percent>', 'exit with 1 where less of what counts is noticed')
    .option('--show <number>', 'print at most so many of what nothing would notice', '40')
    .option('--today <date>', 'the date that review dates are judged by, as YYYY-MM-DD')
    .action(async (book, options) => {
      const { runGuard } = await import('./guard.js');
      finish(await runGuard(book, options, terminal));
    });
  stepgauge
    .command('release')
    .argument('[BOOK]', 'the folder of the book; without it the nearest one')
    .description(
      'Check, then freeze the compiled book as releases/NAME.json in its folder. A release is never written over.',
    )
    .option('--name <name>', 'what it is called; without it the date')
    .option('--strict', 'warnings fail too', false)
    .option('--today <date>', 'its date, and the one that review dates are judged by, as YYYY-MM-DD')
    .action(async (book, options) => {
      const { runRelease } = await import('./release.js');
      finish(runRelease(book, options, terminal));
    });
  stepgauge
    .command('compare')
    .description(
      'What changed by meaning: limits, steps, safety, rigs. Each is a release by name or file, the folder of a book, or data/book.json.',
    )
    .argument('<OLD>', 'what was before')
    .argument('[NEW]', 'what is now; without it the nearest book')
    .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--strict', 'a book with warnings is not compared', false)
    .option('--today <date>', 'the date that review dates are judged by, as YYYY-MM-DD')
    .action(async (before, after, options) => {
      const { runCompare } = await import('./compare.js');
      finish(runCompare({ before, after }, options, terminal));
    });
  stepgauge
    .command('reprint')
    .argument('[BOOK]', 'the folder of the book; without it the nearest one')
    .description('Which issued cards are out of date, for whom, and because of which change.')
    .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--unit <id>', "only the cards of this customer's unit")
    .option('--strict', 'a book with warnings is not looked at', false)
    .option('--today <date>', 'the date that review dates are judged by, as YYYY-MM-DD')
    .action(async (book, options) => {
      const { runReprint } = await import('./reprint.js');
      finish(runReprint(book, options, terminal));
    });
  const records = stepgauge
    .command('records')
    .description('Readings sent back from phones: taken into the folder `records/` of the book, and what they say.');
  records
    .command('import')
    .description(
      'Take in the records that phones shared (.json.txt or .json). Each is held against the book; of each file all is taken or nothing.',
    )
    .argument('<FILES...>', 'the files')
    .option('--book <dir>', 'the folder of the book; without it the nearest one')
    .action(async (files, options) => {
      const { runRecordsImport } = await import('./records-import.js');
      finish(runRecordsImport(files, options, terminal));
    });
  records
    .command('report')
    .argument('[BOOK]', 'the folder of the book; without it the nearest one')
    .description(
      'What the records say together: as found and as left of each value against its limits, drift between jobs, pages found wrong.',
    )
    .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .option('--machine <id>', 'only jobs on this machine')
    .option('--unit <id>', "only jobs on this customer's unit; or a serial")
    .option('--procedure <id>', 'only jobs by this procedure')
    .option('--since <date>', 'only jobs begun on this day or later, as YYYY-MM-DD')
    .option('--calibrated-within <months>', 'an instrument calibrated longer before a job is in doubt', '12')
    .action(async (book, options) => {
      const { runRecordsReport } = await import('./records-report.js');
      finish(runRecordsReport(book, options, terminal));
    });
  stepgauge
    .command('new')
    .description('A commented file, or a whole small book, that passes `check`.')
    .addArgument(stepgauge.createArgument('<kind>', 'what to make').choices(kinds))
    .argument('<id>', 'its id: small letters and digits joined by hyphens')
    .action((kind: Kind, id: string) => finish(runNew(kind, id, terminal)));
  stepgauge
    .command('explain')
    .description('What a diagnostic means, with bad and good examples; without a code, the list of all.')
    .argument('[CODE]', 'the code in brackets of a diagnostic')
    .action((code) => finish(runExplain(code, terminal)));
  stepgauge
    .command('calc')
    .description('The calculation core by hand, with intervals: calc "12 * (20 ± 0.25) in" --to ft')
    .argument('<expression>', 'what to work out')
    .option('--to <unit>', 'the unit of the result')
    .option('--let <name=limits>', 'a name of the expression, with its value or range; may be given again', collect, [])
    .option('--explain', 'show units, enclosure, and how much each input moves the result')
    .addOption(new Option('--format <format>', 'how to print').choices(['text', 'json']).default('text'))
    .action((expression, options) => {
      const { text, exit: code } = runCalc({ expression, ...options });
      (code === 0 ? terminal.out : terminal.err)(text.endsWith('\n') ? text : `${text}\n`);
      finish(code);
    });
  return stepgauge;
}

function checking(command: Command): Command {
  return command
    .addOption(new Option('--format <format>', 'how to print').choices(formats).default('text'))
    .option('--strict', 'warnings fail too', false)
    .option('--max-warnings <number>', 'more warnings than this fail')
    .option('--only <code>', 'print only diagnostics of this code')
    .option('--rig <rig>', 'only this rig: tarn-40+row-12x20')
    .option('--today <date>', 'the date that review dates are judged by, as YYYY-MM-DD');
}

/** The words of a call as they are meant: a number below zero that `calc` is given is no option. */
function callOf(words: readonly string[]): string[] {
  return words.map((word, i) => (words[0] === 'calc' && i > 0 && /^-[\d.( ]/.test(word) ? ` ${word}` : word));
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

/** Runs one call. Gives the exit code. */
export async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  let code = 0;
  try {
    await program(terminal, (given) => {
      code = given;
    }).parseAsync(callOf(words), { from: 'user' });
    return code;
  } catch (fault) {
    if (fault instanceof CommanderError) return fault.exitCode === 0 ? 0 : 2;
    if (fault instanceof Misuse || fault instanceof FileProblem) {
      terminal.err(`stepgauge: ${fault.message}\n`);
      return 2;
    }
    terminal.err(`stepgauge: a fault of ours, not of the book. Please report it with the book that shows it.\n`);
    terminal.err(`${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n`);
    return 3;
  }
}
