/** What the reference says of a code. */
export interface CodeEntry {
  /** What is wrong in general, one sentence without a full stop. */
  readonly title: string;
  /** Why it is refused or warned about, and what helps. */
  readonly explain: string;
}
