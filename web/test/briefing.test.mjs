/** The briefing is one file that plays without the program and asks nothing of anyone. */
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { browse, command, picture, root, serve, watch } from '../browser/common.mjs';

let folder;
let browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelward-briefing-'));
  browser = await browse();
});

after(async () => {
  await browser?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

function write(job, name) {
  const path = join(folder, name);
  const made = command('briefing', job, '--out', path);
  return { path, made };
}

/** Opens a file with the network off; every request but that of the file itself is wrong. */
async function open(path, options = {}) {
  const context = await browser.newContext({ offline: true, viewport: { width: 1440, height: 900 }, ...options });
  const page = watch(await context.newPage());
  const url = pathToFileURL(path).href;
  page.on('request', (r) => !/^(data|blob):/.test(r.url()) && r.url() !== url && page.wrong.push(r.url()));
  await page.goto(url);
  await page.getByTestId('stamp').waitFor();
  return page;
}

test('the job of thirty stages is one file below 10 MB, the same bytes twice, and plays to its third landing', async () => {
  const [one, two] = ['one.html', 'two.html'].map((n) => write(join(root, 'jobs/long-lateral'), n));
  assert.ok(one.made.status === 0 || one.made.status === 1, one.made.stderr);
  assert.ok(readFileSync(one.path).equals(readFileSync(two.path)));
  const size = statSync(one.path).size;
  console.log(`briefing of 30 stages: ${(size / 1e6).toFixed(2)} MB`);
  assert.ok(size < 10e6, `${size} bytes`);
  assert.deepEqual(readdirSync(folder).sort(), ['one.html', 'two.html']);

  const page = await open(one.path);
  await page.getByTestId('now').waitFor();
  assert.equal(await page.title(), 'Briefing: Long Lateral 1-H (invented), Long lateral, 30 stages, fluid-activated packers');
  for (const text of ['revision C', 'Invented data', 'Decision support, not a safety system', 'line of fire', 'All balls side by side']) {
    await page.getByText(text, { exact: false }).first().waitFor();
  }
  assert.match(await page.getByTestId('stamp').textContent(), /heelward \d.*input [0-9a-f]{64}, seed \d+\.\s+Simulated with a sample every 1 s/);
  const stopped = one.made.stderr.includes('stop this job');
  assert.equal(await page.getByText(/findings? stops? this job/).count(), stopped ? 1 : 0);
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  assert.match(await page.getByTestId('now').textContent(), /ball 3 is on the seat of stage 3/);
  const before = Number(await page.getByLabel('Time since the start').inputValue());
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await page.waitForFunction((t) => Number(document.querySelector('input[type=range][step="1"]').value) > t + 30, before);
  await page.getByRole('button', { name: 'Pause' }).click();
  assert.equal(await page.locator('.table').nth(0).locator('tbody tr').count(), 30);
  assert.equal(await page.locator('.table').nth(1).locator('tbody tr').count(), 30);
  assert.match(await page.locator('.table').nth(0).locator('tbody tr').nth(2).textContent(), /1\.3650 in/);
  await picture(page, 'briefing-1440');
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('it works by keyboard and on a telephone, in the dark', async () => {
  const { path } = write(join(root, 'jobs/shallow-oil'), 'telephone.html');
  const page = await open(path, { viewport: { width: 390, height: 844 }, colorScheme: 'dark', hasTouch: true });
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 391);
  const seen = new Set();
  for (let i = 0; i < 30; i++) {
    await page.keyboard.press('Tab');
    const name = await page.evaluate(() => document.activeElement?.textContent?.trim() || document.activeElement?.tagName);
    if (name === 'Next landing' && !seen.has(name)) await page.keyboard.press('Enter');
    seen.add(name);
  }
  for (const name of ['Play', 'Next landing', 'CANVAS']) assert.ok(seen.has(name), `${name} by keyboard`);
  assert.match(await page.getByTestId('now').textContent(), /is on the seat/);
  await picture(page, 'briefing-390');
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('no text of a job breaks out of its place, and stop findings stand at the head', async () => {
  const job = join(folder, 'evil');
  cpSync(join(root, 'jobs/shallow-oil'), job, { recursive: true });
  const file = join(job, 'job.toml');
  const evil = '</script><script>globalThis.broken = 1</script><img src=x onerror="globalThis.broken = 2"><!-- </title>';
  const text = readFileSync(file, 'utf8')
    .replace(/^name = .*$/m, `name = '${evil}'`)
    .replace('treating_pressure = "34.5 MPa"', 'treating_pressure = "12 MPa"');
  writeFileSync(file, text);
  const { path, made } = write(job, 'evil.html');
  assert.equal(made.status, 1, made.stderr);
  const page = await open(path);
  assert.equal(await page.evaluate(() => globalThis.broken), undefined);
  assert.ok((await page.title()).includes(evil));
  await page.getByText(evil).first().waitFor();
  await page.getByRole('heading', { name: '2 findings stop this job' }).waitFor();
  await page.getByText('The job cannot be pumped').waitFor();
  // What is put in later may not run either, nor ask anything.
  const refused = await page.evaluate(async () => {
    const script = document.createElement('script');
    script.textContent = 'globalThis.broken = 3';
    document.body.append(script);
    return fetch('http://127.0.0.1:9/').then(() => 'answered', () => 'refused');
  });
  assert.equal(refused, 'refused');
  assert.equal(await page.evaluate(() => globalThis.broken), undefined);
  await picture(page, 'briefing-stopped');
  await page.context().close();
});

test('the page gives it as a file, and the command does not write over another file', async () => {
  const job = join(root, 'jobs/shallow-oil');
  const [server, address] = await serve(job);
  const answer = await fetch(`${address}api/documents/briefing.html`);
  assert.match(answer.headers.get('content-type'), /text\/html/);
  assert.equal(answer.headers.get('content-disposition'), 'attachment');
  const written = write(job, 'same.html');
  assert.equal(await answer.text(), readFileSync(written.path, 'utf8'));
  server.kill();
  const other = join(folder, 'other.html');
  writeFileSync(other, 'of another');
  const refused = write(job, 'other.html').made;
  assert.equal(refused.status, 1);
  assert.match(refused.stderr, /holds files that would be lost: other\.html/);
  assert.equal(readFileSync(other, 'utf8'), 'of another');
});
