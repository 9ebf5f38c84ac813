import type { Place, TextProblem, TextRule } from './tree';

/** Problems in the order in which they are met; can be taken back to a mark when a stretch is read anew in another way. */
export class ProblemList {
  readonly list: TextProblem[] = [];

  add(rule: TextRule, message: string, place: Place, related?: TextProblem['related']): void {
    this.list.push(related ? { rule, message, place, related } : { rule, message, place });
  }

  get count(): number {
    return this.list.length;
  }

  backTo(count: number): void {
    this.list.length = Math.min(this.list.length, count);
  }
}
