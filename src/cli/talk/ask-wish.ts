/** The dozen questions at a terminal: Enter takes what stands in brackets, nonsense is asked again, `back` goes one back. */
import { QUESTIONS } from '../../circuit/own/questions.js';
import type { Wish } from '../../circuit/own/wish.js';
import type { Output } from '../output.js';
import { paragraph } from '../show/page.js';
import { Interrupted, type Asker } from './asker.js';

/** Typed by somebody who cannot say. */
const UNSURE = /^(\?+|(i )?(don['’]?t|do not) know|no idea|not sure|unknown)\.?$/i;

/** @param given answers by flag, which are not asked */
export async function askWish(
  asker: Asker,
  output: Output,
  given: ReadonlyMap<string, string>,
): Promise<Wish> {
  output.say(
    paragraph(
      'Enter takes the answer in brackets; back goes one question back. Nothing is written before the last answer.',
    ),
    'faint',
  );
  const soFar: Partial<Wish>[] = [{}];
  const asked: number[] = [];
  for (let at = 0; at < QUESTIONS.length;) {
    const question = QUESTIONS[at]!;
    const before = soFar[at]!;
    const usual = question.usual(before);
    const fixed = given.get(question.flag);
    const silent = fixed !== undefined || question.when?.(before) === false;
    if (!silent && question.hint !== undefined) output.say(paragraph(question.hint, '    '), 'faint');
    const typed = silent ? (fixed ?? usual) : await asker.ask(`${question.ask(before)} [${usual}]`);
    if (typed === undefined) throw new Interrupted('no more answers');
    if (!silent && /^back$/i.test(typed)) {
      at = asked.pop() ?? 0;
      continue;
    }
    if (!silent && UNSURE.test(typed.trim())) {
      output.complain(`Then Enter takes ${usual}`, 'It can be changed in the file later.');
      continue;
    }
    const read = question.parse(typed === '' ? usual : typed.trim(), before);
    if ('wrong' in read) {
      output.complain(
        `${read.wrong.charAt(0).toUpperCase()}${read.wrong.slice(1)}`,
        `${read.mend.charAt(0).toUpperCase()}${read.mend.slice(1)}.`,
      );
      // A flag that does not fit is asked like the others.
      if (fixed !== undefined) given = new Map([...given].filter(([flag]) => flag !== question.flag));
      continue;
    }
    if (!silent) asked.push(at);
    soFar[at + 1] = { ...before, [question.key]: read.value };
    at += 1;
  }
  return soFar.at(QUESTIONS.length) as Wish;
}
