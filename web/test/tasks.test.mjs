/** The real tasks of a person, done in a browser against the program itself. */
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { browse, openAt, picture, program, root, serve, view } from '../browser/common.mjs';

const VIEWS = ['Well', 'Job file', 'Ladder', 'Pressures', 'Swell', 'Schedule', 'Ball cards', 'Compare', 'Pump', 'Print and share'];
let folder;
let server;
let address;
let browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelward-page-'));
  cpSync(join(root, 'jobs/shallow-oil'), folder, { recursive: true });
  [server, address] = await serve(folder);
  browser = await browse();
});

after(async () => {
  await browser?.close();
  server?.kill();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

const open = (size) => openAt(browser, address, size);
const job = () => readFileSync(join(folder, 'job.toml'), 'utf8');
/** What the server answers this page's own request with. */
const asked = (page, path, body) =>
  page.evaluate(async ([to, what]) => {
    const answer = await fetch(to, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(what) });
    return answer.json();
  }, [path, body]);
/** The job file as text. */
async function asText(page) {
  await view(page, 'Job file');
  await page.getByRole('button', { name: 'Text', exact: true }).click();
  return page.getByLabel('Text of the job file');
}
/** Waits until the page has planned what was typed. */
const settled = (page) => page.waitForFunction(() => document.querySelector('[role=status]')?.textContent === '');
/** The job file as it is being edited, read without leaving the form. */
async function formText(page) {
  await page.getByRole('button', { name: 'Text', exact: true }).click();
  const text = await page.getByLabel('Text of the job file').inputValue();
  await page.getByRole('button', { name: 'Form', exact: true }).click();
  await page.getByRole('navigation', { name: 'Parts of the job file' }).getByRole('button', { name: 'limits' }).click();
  return text;
}
const save = async (page) => {
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByTestId('saved').getByText('saved', { exact: true }).waitFor();
};

test('the well is shown to scale and every factor is told', async () => {
  const page = await open();
  assert.match(await page.getByTestId('scale').textContent(), /True scale/);
  await picture(page, 'well-1440');
  await page.getByLabel('Stretch of diameters').fill('6');
  assert.match(await page.getByTestId('scale').textContent(), /Not to scale: depth × 1 against reach, diameters × 64/);
  await page.getByLabel('Stage', { exact: false }).first().selectOption('3');
  await page.getByText('on the diameter').first().waitFor();
  await page.getByText('pressed against the hole; in contact').waitFor();
  await page.getByLabel('packers as run').check();
  await page.getByRole('button', { name: 'Seat at true scale' }).click();
  await page.getByLabel('Stretch of diameters').fill('0');
  await picture(page, 'seat-1440');
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('the cutaway of a seat has the sizes of the plan', async () => {
  const page = await open();
  const plan = await asked(page, '/api/plan', {});
  const rung = plan.ladder.rungs.find((r) => r.stage === 4);
  await page.getByLabel('Stage', { exact: false }).first().selectOption('4');
  const label = await page.getByRole('img', { name: /^Seat of stage 4 cut open/ }).getAttribute('aria-label');
  const told = label.match(/ball ([\d.]+) mm, bore ([\d.]+) mm, overlap ([\d.]+) mm/).slice(1).map(Number);
  const is = [rung.ball.value, rung.seat.value, rung.ball.value - rung.seat.value];
  for (const [i, si] of is.entries()) assert.ok(Math.abs(told[i] - si * 1000) <= 0.0501, `${label}: ${si}`);
  const mm = (si) => `${(si * 1000).toFixed(1)} mm`;
  await page.getByRole('button', { name: /^Overlap at stage 4: / }).click();
  assert.match(await page.getByTestId('workings').textContent(), /step 1 of/);
  await page.keyboard.press('Escape');
  assert.match(await page.getByText(/^The same ball in the tightest seat above/).textContent(), new RegExp(`least ${mm(rung.clearance.value)} with tolerances`));
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a packer is moved by hand, told by a finding, put right, saved and found again', async () => {
  const page = await open();
  const before = await asked(page, '/api/plan', {});
  const packer = (plan, stage) => plan.scene.stages.find((s) => s.stage === stage).packer;
  const [top, bottom] = packer(before, 5);
  await page.getByLabel('Stage', { exact: false }).first().selectOption('5');
  const depth = page.getByLabel('Depth of its middle, m');
  // Far up in the casing: no layout can stand so.
  await depth.fill('100');
  await page.getByRole('button', { name: 'Move and solve again' }).click();
  await view(page, 'Job file');
  await page.getByText('this job. See the job file').waitFor();
  await page.locator('li.stop').getByText('the packer of stage 5 has no place').waitFor();
  await picture(page, 'job-1440');
  await page.getByRole('button', { name: 'Undo' }).click();
  await settled(page);
  await page.getByText('this job. See the job file').waitFor({ state: 'detached' });
  await view(page, 'Well');
  const middle = 0.5 * (top + bottom);
  await depth.fill((middle + 6).toFixed(1));
  await page.getByRole('button', { name: 'Move and solve again' }).click();
  await page.getByTestId('moved').getByText('solved anew').waitFor();
  await save(page);
  assert.match(job(), /^\[\[pin\]\]\s+tool = "packer"\s+stage = 5/m);
  const now = await asked(page, '/api/plan', {});
  const at = packer(now, 5);
  assert.ok(Math.abs(0.5 * (at[0] + at[1]) - middle - 6) < 3.1, `${at}`);
  await page.reload();
  await page.getByTestId('scale').waitFor();
  await page.getByLabel('Stage', { exact: false }).first().selectOption('5');
  await page.getByText('fixed at').waitFor();
  await page.getByRole('button', { name: 'Let it go' }).click();
  await page.getByText('fixed at').waitFor({ state: 'detached' });
  await save(page);
  assert.doesNotMatch(job(), /^\[\[pin\]\]/m);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a packer is dragged along the hole', async () => {
  const page = await open();
  await page.getByLabel('Stage', { exact: false }).first().selectOption('6');
  const plan = await asked(page, '/api/plan', {});
  const s = plan.scene.stages.find((x) => x.stage === 6);
  const [packer, sleeve] = [0.5 * (s.packer[0] + s.packer[1]), s.sleeve[1]];
  // The sleeve is in the middle of the picture at two pixels a metre; the hole is nearly level there.
  const box = await page.locator('canvas').boundingBox();
  const x = box.x + box.width / 2 - 2 * (sleeve - packer);
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 10, y, { steps: 4 });
  await page.locator('.ghost').getByText('packer 6 at').waitFor();
  await page.mouse.up();
  await page.getByTestId('moved').getByText('packer of stage 6').waitFor();
  const text = await (await asText(page)).inputValue();
  const pin = text.match(/\[\[pin\]\]\s+tool = "packer"\s+stage = 6\s+depth = "([\d.]+) m"/);
  assert.ok(pin, text.slice(-300));
  assert.ok(Math.abs(Number(pin[1]) - (packer - 5)) < 2, `${pin[1]} for ${packer - 5}`);
  await page.getByRole('button', { name: 'Undo' }).click();
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a field without its unit is told beside it, in the form and in the text', async () => {
  const page = await open();
  await view(page, 'Job file');
  await page.getByRole('navigation', { name: 'Parts of the job file' }).getByRole('button', { name: 'limits' }).click();
  const field = page.locator('[data-path="limits.treating_pressure"]');
  const input = field.locator('input');
  const old = await input.inputValue();
  // Told while the field is still being typed in, and what is typed on is kept.
  await input.fill('');
  await input.pressSequentially('34.5');
  await field.getByText('has no unit', { exact: false }).waitFor();
  await input.pressSequentially('0');
  assert.equal(await input.inputValue(), '34.50');
  await input.press('Tab');
  await settled(page);
  assert.match(await formText(page), /treating_pressure = "34.50"/);
  assert.equal(await input.getAttribute('aria-invalid'), 'true');
  await page.getByTestId('stale').waitFor();
  await picture(page, 'form-1440');
  await input.fill('34 MPa');
  await input.press('Tab');
  await field.getByText('has no unit', { exact: false }).waitFor({ state: 'detached' });
  await save(page);
  assert.match(job(), /treating_pressure = "34 MPa"/);
  await page.reload();
  await settled(page);
  const area = await asText(page);
  assert.match(await area.inputValue(), /treating_pressure = "34 MPa"/);
  await area.fill((await area.inputValue()).replace('"34 MPa"', `"${old}"`));
  await settled(page);
  await save(page);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a finding leads to its field and tells why it matters', async () => {
  const page = await open();
  const area = await asText(page);
  await area.fill((await area.inputValue()).replace(/^trip = .*$/m, 'trip = "1 MPa"'));
  await page.getByRole('button', { name: 'Form', exact: true }).click();
  const first = page.locator('li.stop').first();
  await first.waitFor();
  await first.getByRole('button', { name: 'Why this matters' }).click();
  await first.getByText('What to do').waitFor();
  await first.getByRole('button', { name: /limits\./ }).click();
  await page.locator('[data-path^="limits."] :focus').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('the ladder is edited and the toe rate it costs is shown at once', async () => {
  const page = await open();
  await view(page, 'Ladder');
  await page.getByRole('button', { name: 'Edit these sizes one by one' }).click();
  const plan = await asked(page, '/api/plan', {});
  const heel = plan.ladder.rungs.at(-1).stage;
  const seat = page.getByLabel(`seat of stage ${heel}, mm`);
  await seat.waitFor();
  const toe = page.getByTestId('toe');
  await settled(page);
  assert.match(await toe.textContent(), /pressure against the saved ladder\s*±0/);
  await seat.fill((plan.ladder.rungs.at(-1).seat.value * 1000 - 2).toFixed(1));
  await seat.press('Tab');
  await toe.getByText('▲').waitFor();
  await picture(page, 'ladder-1440');
  const { ladder, stages } = await asked(page, '/api/plan', { text: await (await asText(page)).inputValue() });
  assert.ok(ladder.rungs.at(-1).seat.value < plan.ladder.rungs.at(-1).seat.value);
  assert.ok(stages.toe_seat_loss.value > plan.stages.toe_seat_loss.value);
  await view(page, 'Compare');
  await page.getByTestId('figures').getByText('Loss of the ladder to the toe stage', { exact: false }).waitFor();
  await picture(page, 'compare-1440');
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a text that is broken is told with its line, and makes no error', async () => {
  const page = await open();
  const area = await asText(page);
  await area.fill((await area.inputValue()).replace('[survey]', '[survey'));
  await page.getByTestId('stale').waitFor();
  await page.getByRole('button', { name: 'Form', exact: true }).click();
  await page.getByRole('alert').getByText(/line \d+: .*Mend the text/).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByTestId('stale').waitFor({ state: 'detached' });
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a figure opens to its workings', async () => {
  const page = await open();
  await view(page, 'Job file');
  await page.getByLabel('Find a figure').fill('stage.3.rate_ceiling');
  await page.locator('button.figure').first().click();
  assert.match(await page.getByTestId('workings').textContent(), /step 1 of/);
  await page.keyboard.press('Escape');
  await page.getByTestId('workings').waitFor({ state: 'detached' });
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('units are those of the job until others are chosen', async () => {
  const page = await open();
  await view(page, 'Ladder');
  await page.getByText('MPa', { exact: false }).first().waitFor();
  await page.getByLabel('Units').selectOption('field');
  await page.getByRole('button', { name: /psi, open its workings/ }).first().click();
  assert.match(await page.getByTestId('workings').textContent(), /psi/);
  assert.doesNotMatch(await page.locator('main').textContent(), /MPa/);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('the job is played to its third landing, with what can go wrong hidden until asked', async () => {
  const page = await open();
  await view(page, 'Pump');
  await page.getByLabel('What goes wrong').selectOption({ label: 'The ball has landed, the sleeve does not shift' });
  await page.getByLabel('at stage').fill('5');
  await page.getByRole('button', { name: 'Pump the job' }).click();
  await page.getByTestId('now').waitFor();
  // What lies ahead stays hidden with it: the end of the run, its events to come, and its lines.
  const hidden = async () => [
    await page.getByText('What crews do').count(),
    await page.getByText('The job stopped before its end').count(),
    await page.getByLabel('Go to').locator('option').count(),
    await page.getByTestId('veil').count(),
  ];
  assert.deepEqual(await hidden(), [0, 0, 1, 1]);
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  assert.match(await page.getByTestId('now').textContent(), /ball 4 is on the seat of stage 4/);
  const launch = await page.getByLabel('Go to').locator('option', { hasText: 'ball 3 left the launcher' }).getAttribute('value');
  await page.getByLabel('Go to').selectOption(launch);
  assert.match(await page.getByTestId('now').textContent(), /ball 3 left the launcher/);
  for (let i = 0; i < 2; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  await page.getByLabel('In sight').selectOption({ label: '2 min' });
  await page.getByRole('button', { name: 'Play' }).click();
  await page.waitForTimeout(700);
  await page.getByRole('button', { name: 'Pause' }).click();
  await picture(page, 'pump-1440');
  const veil = await page.getByTestId('veil').boundingBox();
  assert.ok(veil.width > 50, `the lines ahead are covered over ${veil.width} px`);
  assert.equal((await hidden())[1], 0);
  await page.getByLabel('show what lies ahead').check();
  await page.getByText('The job stopped before its end').waitFor();
  await page.getByLabel('show what lies ahead').uncheck();
  assert.deepEqual((await hidden())[1], 0);
  await page.getByRole('button', { name: 'What would you see?' }).click();
  await page.getByText('What crews do').waitFor();
  await page.getByText('The job stopped before its end').waitFor();
  assert.equal(await page.getByTestId('veil').count(), 0);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('several things go wrong, each with figures of its own, or by lot', async () => {
  const page = await open();
  await view(page, 'Pump');
  const wrong = page.getByLabel('What goes wrong');
  const pump = async (button) => {
    const asked = page.waitForRequest('**/api/run');
    await page.getByRole('button', { name: button }).click();
    return JSON.parse((await asked).postData()).faults;
  };
  await wrong.selectOption({ label: 'The flow meter reads too much, and more with time' });
  await page.getByLabel('at stage').fill('3');
  await page.getByLabel('begins, minutes').fill('2.5');
  await page.getByLabel('share by which it reads too much').fill('0.1');
  assert.equal(await page.getByLabel('over, minutes').getAttribute('placeholder'), '60');
  await page.getByRole('button', { name: 'And something else' }).click();
  await wrong.nth(1).selectOption({ label: 'The ball has landed, the sleeve does not shift' });
  await page.getByLabel('at stage (2)').fill('5');
  await picture(page, 'faults-1440');
  assert.deepEqual(await pump('Pump the job'), ['meter-drift@3,after=2.5 min,size=0.1', 'sleeve-stuck@5']);
  await page.getByTestId('now').waitFor();
  await page.getByRole('button', { name: 'What would you see?' }).click();
  await page.getByRole('heading', { name: 'Stage 3: The flow meter reads too much' }).waitFor();
  await page.getByRole('heading', { name: 'Stage 5: The ball has landed' }).waitFor();

  // By lot: what it is stands nowhere until it is asked for.
  await page.getByRole('button', { name: 'Take the last away' }).click();
  await wrong.selectOption({ label: 'a surprise, told when asked' });
  const [lot] = await pump('Pump again');
  const [name, stage] = lot.split('@');
  const { title } = (await page.evaluate(async () => (await fetch('/api/faults')).json())).find((f) => f.name === name);
  await page.getByRole('button', { name: 'What would you see?', expanded: false }).waitFor();
  assert.equal(await page.getByRole('heading', { name: title }).count(), 0);
  await page.getByRole('button', { name: 'What would you see?' }).click();
  await page.getByRole('heading', { name: `Stage ${stage}: ${title}` }).waitFor();
  // A figure that cannot be is refused with what to do, and the run that is shown stays.
  await wrong.selectOption({ label: 'The ball has landed, the sleeve does not shift' });
  await page.getByLabel('at stage').fill('0');
  await page.getByRole('button', { name: 'Pump again' }).click();
  await page.getByRole('alert').getByText('stage 1 is at the toe').waitFor();
  assert.ok(page.wrong.every((w) => w.includes('422')), String(page.wrong));
  await page.close();
});

test('documents are made from the saved job and are those of the command', async () => {
  const page = await open();
  await view(page, 'Print and share');
  const out = join(folder, 'out');
  execFileSync(program, ['plan', folder, '--out', out], { stdio: 'ignore' });
  for (const name of ['tally.csv', 'ball-card.csv', 'pressure-sheet.csv', 'findings.txt', 'program.json']) {
    const waiting = page.waitForEvent('download');
    await page.getByRole('button', { name, exact: true }).click();
    const file = await (await waiting).path();
    assert.equal(readFileSync(file, 'utf8'), readFileSync(join(out, name), 'utf8'), name);
  }
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'program.pdf', exact: true }).click();
  await page.getByRole('progressbar', { name: 'program.pdf is being made' }).waitFor();
  const pdf = readFileSync(await (await waiting).path());
  assert.equal(pdf.subarray(0, 5).toString(), '%PDF-');
  rmSync(out, { recursive: true });
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('two pages at once: the second to save is told, and loses nothing', async () => {
  const [a, b] = [await open(), await open()];
  const [first, second] = [await asText(a), await asText(b)];
  await first.fill(`${await first.inputValue()}\n# first\n`);
  await second.fill(`${await second.inputValue()}\n# second\n`);
  await settled(a);
  await settled(b);
  await save(a);
  // Saved at once after a key: the refusal must not go away when the text is planned a moment later.
  const planned = b.waitForResponse((r) => r.url().endsWith('/api/plan'));
  await second.fill(`${await second.inputValue()}# at once\n`);
  await b.getByRole('button', { name: 'Save', exact: true }).click();
  const refusal = b.getByRole('alert').getByText('changed by someone else');
  await refusal.waitFor();
  await planned;
  await settled(b);
  assert.ok(await refusal.isVisible());
  assert.match(await second.inputValue(), /# second/);
  assert.match(job(), /# first/);
  assert.doesNotMatch(job(), /# second/);
  // The refusal is told as an answer with an error status, which the browser logs.
  assert.ok(b.wrong.every((w) => w.includes('409')), String(b.wrong));
  await a.close();
  await b.close();
});

test('an edit is not lost to another that is on its way', async () => {
  const page = await open();
  const area = await asText(page);
  const old = await area.inputValue();
  // The first edit of a field waits for its answer until the text has been typed in.
  let release;
  const held = new Promise((done) => (release = done));
  await page.route('**/api/edit', async (route) => (await held, route.continue()), { times: 1 });
  await page.getByRole('button', { name: 'Form', exact: true }).click();
  await page.getByRole('navigation', { name: 'Parts of the job file' }).getByRole('button', { name: 'limits' }).click();
  const field = page.locator('[data-path="limits.treating_pressure"] input');
  await field.fill('33 MPa');
  await field.press('Tab');
  const typed = await asText(page);
  await typed.fill(`${old}# typed meanwhile\n`);
  release();
  await page.waitForFunction((a) => a.value.includes('33 MPa'), await typed.elementHandle());
  assert.match(await typed.inputValue(), /# typed meanwhile/);
  await settled(page);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a server that stops is told, and what is typed stays', async () => {
  const [child, at] = await serve(folder);
  const page = await browser.newPage();
  await page.goto(at);
  await page.getByTestId('scale').waitFor();
  const area = await asText(page);
  await area.fill(`${await area.inputValue()}\n# kept\n`);
  await settled(page);
  child.kill('SIGKILL');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('alert').getByText('does not answer').waitFor();
  assert.match(await area.inputValue(), /# kept/);
  assert.doesNotMatch(job(), /# kept/);
  await page.close();
});

test('a server stopped in mid-save leaves the old file or the new one, whole', async () => {
  const old = job();
  const filler = `# ${'x'.repeat(98)}\n`.repeat(20000);
  for (const wait of [0, 1, 2, 4, 8, 16]) {
    writeFileSync(join(folder, 'job.toml'), old);
    const [child, at] = await serve(folder);
    const { hash } = await (await fetch(`${at}api/job`)).json();
    const text = `${old}\n${filler}`;
    const body = JSON.stringify({ text, base: hash });
    const asked = fetch(`${at}api/job`, { method: 'PUT', headers: { 'content-type': 'application/json' }, body }).catch(() => null);
    await new Promise((done) => setTimeout(done, wait));
    child.kill('SIGKILL');
    await asked;
    const now = job();
    assert.ok(now === old || now === text, `killed after ${wait} ms: ${now.length} bytes, neither ${old.length} nor ${text.length}`);
  }
  writeFileSync(join(folder, 'job.toml'), old);
});

test('the page fits a tablet and a telephone, light and dark, and works by keyboard', async () => {
  for (const [width, height] of [[1024, 768], [390, 844]]) {
    const page = await open({ width, height });
    for (const [i, name] of VIEWS.entries()) {
      await page.getByLabel('Look', { exact: true }).selectOption(i % 2 ? 'light' : 'dark');
      await view(page, name);
      await settled(page);
      await picture(page, `${name.toLowerCase().replaceAll(' ', '-')}-${width}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(wide <= width + 1, `${name}: ${wide} px on a screen of ${width}`);
    }
    // A picture that has no size for a moment is drawn again when it has one.
    await view(page, 'Well');
    const drawn = () => page.evaluate(() => document.querySelector('canvas').toDataURL());
    const frame = (wide) => page.evaluate((w) => (document.querySelector('canvas').parentElement.style.width = w), wide);
    await settled(page);
    const before = await drawn();
    await frame('0');
    await page.waitForTimeout(200);
    await frame('');
    await page.waitForTimeout(200);
    assert.ok((await drawn()) === before, 'the well is drawn as before');
    assert.deepEqual(page.wrong, []);
    await page.close();
  }
  const page = await open();
  await page.keyboard.press('Tab');
  const seen = new Set();
  for (let i = 0; i < 40; i++) {
    seen.add(await page.evaluate(() => document.activeElement?.textContent?.trim() || document.activeElement?.tagName));
    await page.keyboard.press('Tab');
  }
  for (const name of [...VIEWS, 'Closer', 'CANVAS']) assert.ok(seen.has(name), `${name} by keyboard`);
  await page.close();
});

test('everything that can be worked has a name for those who hear it', async () => {
  const page = await open();
  for (const name of VIEWS) {
    await view(page, name);
    await settled(page);
    const nameless = await page.evaluate(() => {
      const named = (e) => e.getAttribute('aria-label') || e.getAttribute('title') || e.labels?.length || e.textContent?.trim() || e.getAttribute('aria-labelledby');
      const all = [...document.querySelectorAll('button, a[href], input, select, textarea, canvas, svg[role=img], [role=img]')];
      return all.filter((e) => !named(e)).map((e) => e.outerHTML.slice(0, 120));
    });
    assert.deepEqual(nameless, [], name);
  }
  await page.close();
});

test('no rule of access is broken in any view and look', async () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  const page = await open();
  for (const look of ['light', 'dark', 'bright']) {
    await page.getByLabel('Look', { exact: true }).selectOption(look);
    for (const name of VIEWS) {
      await view(page, name);
      await settled(page);
      // A page of its own policy: what is run here comes from the test, not from the page.
      await page.evaluate(axe);
      const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'best-practice'] }));
      const broken = found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 120)).join('; ')}`);
      assert.deepEqual(broken, [], `${name}, ${look}`);
    }
  }
  await page.close();
});
