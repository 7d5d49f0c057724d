/** The real tasks of a person, done in a browser against the program itself. */
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../..', import.meta.url));
const program = process.env.HEELWARD ?? join(root, 'target/release/heelward');
const pictures = process.env.PAGE_PICTURES;
let folder;
let server;
let address;
let browser;

async function serve(job) {
  const child = spawn(program, ['serve', job], { stdio: ['ignore', 'pipe', 'pipe'] });
  const at = await new Promise((resolve, reject) => {
    child.stdout.once('data', (d) => resolve(String(d).trim()));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
  return [child, at];
}

before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelward-page-'));
  cpSync(join(root, 'jobs/shallow-oil'), folder, { recursive: true });
  [server, address] = await serve(folder);
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });
});

after(async () => {
  await browser?.close();
  server?.kill();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

/** A page that counts what must not be: errors, and requests that leave the machine. */
async function open(size = { width: 1440, height: 900 }) {
  const page = await browser.newPage({ viewport: size });
  page.wrong = [];
  page.on('console', (m) => m.type() === 'error' && page.wrong.push(m.text()));
  page.on('pageerror', (e) => page.wrong.push(e.message));
  page.on('request', (r) => {
    if (!/^(data|blob):/.test(r.url()) && new URL(r.url()).hostname !== '127.0.0.1') page.wrong.push(r.url());
  });
  await page.goto(address);
  await page.getByTestId('scale').waitFor();
  return page;
}
const picture = async (page, name) => pictures && page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
const job = () => readFileSync(join(folder, 'job.toml'), 'utf8');

test('the well is shown to scale and every factor is told', async () => {
  const page = await open();
  assert.match(await page.getByTestId('scale').textContent(), /True scale/);
  await picture(page, 'well-1440');
  await page.getByLabel('Stretch of diameters').fill('6');
  assert.match(await page.getByTestId('scale').textContent(), /Not to scale: depth × 1 against reach, diameters × 64/);
  await page.getByLabel('Stage', { exact: false }).first().selectOption('3');
  await page.getByText('on the diameter').waitFor();
  await page.getByRole('button', { name: 'Seat at true scale' }).click();
  await page.getByLabel('Stretch of diameters').fill('0');
  await picture(page, 'seat-1440');
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a wrong figure is found where it stands, put right, saved and found again', async () => {
  const page = await open();
  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  const area = page.getByLabel('Text of the job file');
  const before = await area.inputValue();
  await area.fill(before.replace('treating_pressure = "34.5 MPa"', 'treating_pressure = "34.5"'));
  await page.getByText('has no unit', { exact: false }).first().waitFor();
  await picture(page, 'plan-1440');
  await page.getByRole('button', { name: 'Undo' }).click();
  assert.equal(await area.inputValue(), before);
  await area.fill(before.replace('treating_pressure = "34.5 MPa"', 'treating_pressure = "34 MPa"'));
  await page.getByRole('button', { name: 'Compare with the saved one' }).click();
  assert.match(await page.getByTestId('changes').textContent(), /34 MPa/);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByTestId('saved').getByText('saved', { exact: true }).waitFor();
  assert.match(job(), /treating_pressure = "34 MPa"/);
  await page.reload();
  await page.getByTestId('scale').waitFor();
  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  assert.match(await page.getByLabel('Text of the job file').inputValue(), /treating_pressure = "34 MPa"/);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('a figure opens to its workings', async () => {
  const page = await open();
  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Find a figure').fill('stage.3.rate_ceiling');
  await page.locator('button.figure').first().click();
  assert.match(await page.getByTestId('workings').textContent(), /step 1 of/);
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('the job is played to its third landing, with what can go wrong hidden until asked', async () => {
  const page = await open();
  await page.getByRole('button', { name: 'Pump', exact: true }).click();
  await page.getByLabel('What goes wrong').selectOption({ label: 'The ball has landed, the sleeve does not shift' });
  await page.getByLabel('at stage').fill('5');
  await page.getByRole('button', { name: 'Pump the job' }).click();
  await page.getByTestId('now').waitFor();
  assert.equal(await page.getByText('What crews do').count(), 0);
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  assert.match(await page.getByTestId('now').textContent(), /ball 4 is on the seat of stage 4/);
  await page.getByLabel('In sight').selectOption({ label: '2 min' });
  await page.getByRole('button', { name: 'Play' }).click();
  await page.waitForTimeout(700);
  await page.getByRole('button', { name: 'Pause' }).click();
  await picture(page, 'pump-1440');
  await page.getByRole('button', { name: 'What would you see?' }).click();
  await page.getByText('What crews do').waitFor();
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('two pages at once: the second to save is told, and loses nothing', async () => {
  const [a, b] = [await open(), await open()];
  for (const page of [a, b]) await page.getByRole('button', { name: 'Plan', exact: true }).click();
  const first = a.getByLabel('Text of the job file');
  await first.fill(`${await first.inputValue()}\n# first\n`);
  const second = b.getByLabel('Text of the job file');
  await second.fill(`${await second.inputValue()}\n# second\n`);
  await a.getByRole('button', { name: 'Save', exact: true }).click();
  await a.getByTestId('saved').getByText('saved', { exact: true }).waitFor();
  await b.getByRole('button', { name: 'Save', exact: true }).click();
  await b.getByRole('alert').getByText('changed by someone else').waitFor();
  assert.match(await second.inputValue(), /# second/);
  assert.match(job(), /# first/);
  assert.doesNotMatch(job(), /# second/);
  // The refusal is told as an answer with an error status, which the browser logs.
  assert.ok(b.wrong.every((w) => w.includes('409')), String(b.wrong));
  await a.close();
  await b.close();
});

test('a server that stops is told, and what is typed stays', async () => {
  const [child, at] = await serve(folder);
  const page = await browser.newPage();
  await page.goto(at);
  await page.getByTestId('scale').waitFor();
  await page.getByRole('button', { name: 'Plan', exact: true }).click();
  const area = page.getByLabel('Text of the job file');
  await area.fill(`${await area.inputValue()}\n# kept\n`);
  child.kill('SIGKILL');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('alert').getByText('does not answer').waitFor();
  assert.match(await area.inputValue(), /# kept/);
  assert.doesNotMatch(job(), /# kept/);
  await page.close();
});

test('the page fits a tablet and a telephone, light and dark, and works by keyboard', async () => {
  for (const [width, height] of [[1024, 768], [390, 844]]) {
    const page = await open({ width, height });
    await page.getByLabel('Look').selectOption('dark');
    await picture(page, `well-dark-${width}`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= width + 1, `${wide} px on a screen of ${width}`);
    await page.close();
  }
  const page = await open();
  await page.keyboard.press('Tab');
  const seen = new Set();
  for (let i = 0; i < 30; i++) {
    seen.add(await page.evaluate(() => document.activeElement?.textContent?.trim() || document.activeElement?.tagName));
    await page.keyboard.press('Tab');
  }
  for (const name of ['Well', 'Plan', 'Pump', 'Print', 'Closer', 'CANVAS']) assert.ok(seen.has(name), `${name} by keyboard`);
  await page.close();
});
