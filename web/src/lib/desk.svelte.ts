/** The job on the desk: its text as it is being edited, its plan, and what may be done with both. */

import { editJob, openFigure, planJob, readJob, Refused, saveJob, type Edit } from './api';
import type { Finding, Plan, Scene, Units } from './types';

/** Versions that can be gone back to. */
const MOST = 300;
/** Wait after the last key before the text is planned, ms. */
const PAUSE = 350;

export class Desk {
  text = $state('');
  saved = $state('');
  plan = $state.raw<Plan | null>(null);
  /** The plan of the saved file, and of a version kept to compare with. */
  savedPlan = $state.raw<Plan | null>(null);
  kept = $state.raw<{ text: string; plan: Plan; at: string } | null>(null);
  findings = $state.raw<Finding[]>([]);
  /** The last well that could be laid out. */
  lastScene = $state.raw<Scene | null>(null);
  /** Units that are shown; those of the job where none are chosen. */
  chosenUnits = $state<Units | 'job'>('job');
  /** Whether the text is no complete job, so that what is shown is of an earlier text. */
  stale = $state(false);
  /** What went wrong in the last task, and why the last save was refused: that stays until another save. */
  said = $state('');
  unsaved = $state('');
  saving = $state(false);
  /** Stage that is pointed out in every view. */
  stage = $state<number | null>(null);
  /** Figure that is open, with its workings once they are there. */
  opened = $state.raw<{ figure: string; text: string } | null>(null);
  past = $state.raw<string[]>([]);
  future = $state.raw<string[]>([]);

  #base = '';
  #tasks = $state(0);
  #typing = $state(false);
  #waiting: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  get units(): Units {
    return this.plan?.units ?? 'field';
  }
  get changed() {
    return this.text !== this.saved;
  }
  /** Whether what is shown is behind what was asked for or typed. */
  get busy() {
    return this.#typing || this.#tasks > 0;
  }
  get #asking() {
    return this.chosenUnits === 'job' ? undefined : this.chosenUnits;
  }

  /** Does a task and tells what went wrong; true where nothing did. */
  async #attempt(task: () => Promise<void>): Promise<boolean> {
    this.said = '';
    this.#tasks += 1;
    try {
      await task();
      return true;
    } catch (e) {
      this.said = (e as Error).message;
      return false;
    } finally {
      this.#tasks -= 1;
    }
  }

  start = () =>
    this.#attempt(async () => {
      const job = await readJob();
      this.text = this.saved = job.text;
      this.#base = job.hash;
      this.past = [];
      this.future = [];
      await this.#solve();
      this.savedPlan = this.plan;
    });

  /** Plans the text; an answer to an older text is dropped. */
  async #solve() {
    const ask = ++this.#asked;
    const plan = await planJob(this.text, this.#asking);
    if (ask !== this.#asked) return;
    this.findings = plan.findings;
    this.stale = !plan.planned;
    if (this.stale) return;
    this.plan = plan;
    this.lastScene = plan.scene ?? this.lastScene;
  }

  solve = () => this.#attempt(() => this.#solve());

  showUnits(units: Units | 'job') {
    this.chosenUnits = units;
    void this.#attempt(async () => {
      await this.#solve();
      this.savedPlan = this.changed ? await planJob(this.saved, this.#asking) : this.plan;
      if (this.kept) this.kept = { ...this.kept, plan: await planJob(this.kept.text, this.#asking) };
      if (this.opened) await this.#open(this.opened.figure);
    });
  }

  #put(next: string, now: boolean) {
    this.text = next;
    clearTimeout(this.#waiting);
    this.#typing = !now;
    if (now) return this.solve();
    this.#waiting = setTimeout(() => {
      this.#typing = false;
      void this.solve();
    }, PAUSE);
    return Promise.resolve(true);
  }

  /** The text as typed; it is planned when the typing pauses. */
  edit = (next: string, now = false) => {
    if (next === this.text) return Promise.resolve(true);
    this.past = [...this.past.slice(-MOST), this.text];
    this.future = [];
    return this.#put(next, now);
  };
  undo = () => {
    const last = this.past.at(-1);
    if (last === undefined) return;
    this.future = [this.text, ...this.future];
    this.past = this.past.slice(0, -1);
    void this.#put(last, true);
  };
  redo = () => {
    const [next, ...rest] = this.future;
    if (next === undefined) return;
    this.past = [...this.past, this.text];
    this.future = rest;
    void this.#put(next, true);
  };

  /** Edits single fields; all other text stays as it was typed. */
  async change(edits: Edit[]): Promise<boolean> {
    let planned = Promise.resolve(true);
    const done = await this.#attempt(async () => {
      let from: string;
      let next: string;
      do {
        from = this.text;
        next = await editJob(from, edits);
        // Edited again where another edit came in between, so that neither is lost.
      } while (from !== this.text);
      planned = this.edit(next, true);
    });
    return done && (await planned);
  }

  /** Puts the text into the job folder and plans it, so that the saved plan is that of the file. */
  save = async () => {
    if (this.saving) return;
    this.saving = true;
    this.unsaved = '';
    const text = this.text;
    try {
      this.#base = await saveJob(text, this.#base);
      this.saved = text;
    } catch (e) {
      const { message } = e as Error;
      const other = e instanceof Refused && e.status === 409;
      this.unsaved = other ? `${message}. Reload to see it; copy your text first.` : message;
      return;
    } finally {
      this.saving = false;
    }
    await this.#attempt(async () => {
      const plan = await planJob(text, this.#asking);
      if (plan.planned) this.savedPlan = plan;
    });
  };

  keep() {
    if (this.plan) this.kept = { text: this.text, plan: this.plan, at: new Date().toLocaleTimeString() };
  }

  async #open(figure: string) {
    this.opened = { figure, text: await openFigure(figure, this.text, this.#asking) };
  }
  /** Opens a figure to its workings. */
  open = (figure: string) => this.#attempt(() => this.#open(figure));
}

/** The one desk of the page. */
export const desk = new Desk();
