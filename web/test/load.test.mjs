/** A run loaded from CSV shows what the simulated one shows; wrong files are told. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { browse, command, openAt, picture, root, serve, view } from '../browser/common.mjs';

const job = join(root, 'jobs/shallow-oil');
let folder;
let server;
let address;
let browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelward-load-'));
  for (const [name, units] of [['metric', 'metric'], ['field', 'field']]) {
    const made = command('pump', job, '--out', join(folder, name), '--units', units, '--fault', 'sleeve-stuck@5', '--quiet');
    assert.ok(made.status === 0 || made.status === 1, made.stderr);
  }
  [server, address] = await serve(job);
  browser = await browse();
});

after(async () => {
  await browser?.close();
  server?.kill();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

async function open(size) {
  const page = await openAt(browser, address, size);
  await view(page, 'Pump');
  return page;
}
const load = (page, ...files) => page.getByLabel('Load a run from CSV').setInputFiles(files);
const written = (name, text) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
async function thirdLanding(page) {
  await page.getByTestId('now').waitFor();
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  const seen = async () => [await page.getByTestId('now').textContent(), await page.getByTestId('live').textContent()];
  return (await seen()).map((t) => t.replace(/\s+/g, ' ').trim());
}

test('a run loaded from its files shows at the third landing what the simulated one shows', async () => {
  const page = await open();
  await page.getByLabel('What goes wrong').selectOption({ index: (await faultIndex(page)) });
  await page.getByLabel('at stage').fill('5');
  await page.getByRole('button', { name: 'Pump the job' }).click();
  const simulated = await thirdLanding(page);
  assert.match(simulated[0], /is on the seat of stage/);
  assert.match(simulated[1], /[1-9].* MPa .*m³\/min/);
  for (const units of ['metric', 'field']) {
    const files = ['labels', 'states', 'events', 'channels'].map((n) => join(folder, units, `${n}.csv`));
    await load(page, ...files);
    await page.getByTestId('loaded').waitFor();
    await page.getByText('0:00:00 of').waitFor();
    assert.match(await page.getByTestId('loaded').textContent(), /channels\.csv.*not simulated here/);
    assert.deepEqual(await thirdLanding(page), simulated, units);
    assert.equal(await page.getByTestId('missing').count(), 0);
    assert.equal(await page.getByText('of another input').count(), 0);
    if (units === 'metric') await picture(page, 'loaded-1440');
    await page.getByRole('button', { name: 'Pump the job' }).click();
    await page.getByTestId('loaded').waitFor({ state: 'detached' });
  }
  assert.deepEqual(page.wrong, []);
  await page.close();
});

async function faultIndex(page) {
  const named = await (await page.request.get(`${address}api/faults`)).json();
  await page.getByLabel('What goes wrong').locator('option').nth(1).waitFor({ state: 'attached' });
  return 1 + named.findIndex((f) => f.name === 'sleeve-stuck');
}

test('a record of time, pressure, rate and concentration plays, and says what is missing', async () => {
  const page = await open({ width: 390, height: 844 });
  const rows = Array.from({ length: 600 }, (_, i) => `${i / 10};${2000 + i};${i === 9 ? '' : 10};0.5;7`);
  await load(page, written('recorder.txt', `﻿# of a recorder\r\nTime (min);Pressure [psi];Rate (bbl/min);Concentration (ppa);tank level\r\n${rows.join('\r\n')}\r\n`));
  await page.getByTestId('loaded').waitFor();
  assert.match(await page.getByTestId('missing').textContent(), /proppant in the string; the stage that takes fluid; fractures/);
  await page.getByText('Columns that are not used: tank_level').waitFor();
  const slide = page.getByLabel('Time since the start');
  await slide.fill('54');
  assert.match((await page.getByTestId('live').textContent()).replace(/\s+/g, ' '), /13\.85 MPa – 60 kg\/m³ at the surface – at the sleeve/);
  assert.match(await page.getByTestId('now').textContent(), /no event yet/);
  assert.ok(await page.getByRole('button', { name: 'Next landing' }).isDisabled());
  assert.equal(await page.locator('.u-legend .u-series').count(), 4);
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await page.waitForFunction(() => Number(document.querySelector('input[type=range][max="3594"]')?.value) > 60);
  await picture(page, 'recorder-390');
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 391);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

const HEAD = 'time (s),pressure (psi),rate (bbl/min)\n';
const WRONG = [
  ['empty.csv', '', /empty\.csv: the file is empty\. Give a table/],
  ['rows.csv', HEAD, /rows\.csv: there is no row below the head/],
  ['letter.csv', 'Dear all,\nhere it is.\n', /letter\.csv: the head has no column of a run: `dear_all, `\. Name the columns/],
  ['unit.csv', 'time (s),pressure (atm)\n1,2\n', /unit\.csv, column pressure: `atm` is not a unit of gauge pressure\. .*psi, kPa, MPa, bar/],
  ['bare.csv', 'time,pressure (psi)\n1,2\n', /bare\.csv, column time: the head gives no unit\. .*time \(min\); these fit: s, min, h, d, ms/],
  ['clock.csv', 'hour (s),pressure (psi)\n1,2\n', /clock\.csv: there is no column time\. Give the time/],
  ['word.csv', `# one\n\n${HEAD}1,2,3\n2,high,3\n`, /word\.csv, line 5, column treating_pressure: `high` is not a number\. Write a number/],
  ['comma.csv', 'time (s);pressure (psi)\n1;2,5\n', /comma\.csv, line 2, column treating_pressure: `2,5` is not a number\. Write the number with a point/],
  ['back.csv', `${HEAD}1,2,3\n5,2,3\n4.5,2,3\n`, /back\.csv, line 4, column time: `4\.5` s is before the row above\. Put the rows in the order/],
  ['gap.csv', `${HEAD}1,2,3\n,2,3\n`, /gap\.csv, line 3, column time: there is no time/],
  ['short.csv', `${HEAD}1,2,3\n2,3\n`, /short\.csv, line 3: the row has 2 cells, the head 3/],
  ['twice.csv', 'time (s),pressure (psi),pressure (bar)\n1,2,3\n', /twice\.csv, line 1, column pressure: the column stands there twice/],
  ['quote.csv', `${HEAD}1,2,3\n2,"3,4\n`, /quote\.csv, line 3: a quoted text does not end/],
  ['page.csv', Buffer.from([0x74, 0x69, 0xe4, 0x0a]), /page\.csv: it is not UTF-8 text\. Save/],
  ['events.csv', 'time (s),event,stage,what\n1,ball landed,1,"a, b"\n', /events\.csv: there are no channels among the files/],
];

test('a wrong file is told with its line, its column, what was found and what to do', async () => {
  const page = await open();
  for (const [name, text, said] of WRONG) {
    await load(page, written(name, text));
    await page.getByTestId('load-said').getByText(name).waitFor();
    assert.match(await page.getByTestId('load-said').textContent(), said);
    assert.equal(await page.getByTestId('loaded').count(), 0);
  }
  await load(page, join(folder, 'metric/channels.csv'), join(folder, 'field/channels.csv'));
  await page.getByTestId('load-said').getByText('it holds channels, as channels.csv does').waitFor();
  const other = readFileSync(join(folder, 'field/channels.csv'), 'utf8').replace(/input [0-9a-f]{16}/, 'input 0123456789abcdef');
  await load(page, written('other.csv', other));
  await page.getByText('of another input (0123456789abcdef').waitFor();
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a long record is read while the page answers', async () => {
  const page = await open();
  const head = readFileSync(join(folder, 'field/channels.csv'), 'utf8').split('\n').find((l) => l.startsWith('time'));
  const row = Array.from({ length: head.split(',').length - 1 }, (_, k) => `${k}.123456`).join(',');
  const rows = Array.from({ length: 200_000 }, (_, i) => `${i},${row}`).join('\n');
  const path = written('long.csv', `${head}\n${rows}\n`);
  await page.evaluate(() => {
    globalThis.longest = 0;
    let last = performance.now();
    requestAnimationFrame(function turn(now) {
      globalThis.longest = Math.max(globalThis.longest, now - last);
      last = now;
      requestAnimationFrame(turn);
    });
  });
  await load(page, path);
  await page.getByLabel('The run is being read').waitFor();
  await page.waitForFunction(() => { const p = document.querySelector('progress[aria-label="The run is being read"]'); return p && p.value > 0.2 && p.value < 1; });
  await page.getByTestId('loaded').waitFor({ timeout: 60_000 });
  const longest = await page.evaluate(() => globalThis.longest);
  console.log(`200,000 rows of 23 columns: longest stop of the page ${longest.toFixed(0)} ms`);
  assert.ok(longest < 1000, `the page stood for ${longest} ms`);
  assert.deepEqual(page.wrong, []);
  await page.close();
});
