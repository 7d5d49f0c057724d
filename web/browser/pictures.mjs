/** Pictures of every view at three widths, and docs/page-views.md which shows them; see scripts/page_pictures. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { browse, command, root, serve, view, watch } from './common.mjs';

const SIZES = [[1440, 1000], [1024, 900], [390, 844]];
const LOOKS = { 1440: 'light', 1024: 'dark', 390: 'light' };
const out = join(root, 'docs/pictures/views');
const settled = (page) => page.waitForFunction(() => document.querySelector('[role=status]')?.textContent === '');
const stage = (page, n) => page.getByLabel('Stage', { exact: false }).first().selectOption(String(n));
const part = (name) => (page) => page.getByRole('button', { name, exact: true }).click();

async function pumped(page) {
  await page.getByLabel('What goes wrong').selectOption({ label: 'The ball has landed, the sleeve does not shift' });
  await page.getByLabel('at stage').fill('5');
  await page.getByRole('button', { name: 'Pump the job' }).click();
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
  await page.getByLabel('In sight').selectOption({ label: '2 h' });
}
async function edited(page) {
  await page.getByRole('navigation', { name: 'Parts of the job file' }).getByRole('button', { name: 'limits' }).click();
  const input = page.locator('[data-path="limits.treating_pressure"] input');
  await input.fill('8500');
  await input.press('Tab');
  await page.getByTestId('stale').waitFor();
}
async function smaller(page) {
  await page.getByRole('button', { name: 'Edit these sizes one by one' }).click();
  await settled(page);
  const seat = page.getByLabel('seat of stage 30, in');
  await seat.fill('3.40');
  await seat.press('Tab');
  await settled(page);
}
const VIEWS = [
  ['well', 'Well', 'The whole well at true scale, and all balls side by side.', null],
  ['seat', 'Well', 'A seat cut open, with its ball, bore, overlap and clearance.', async (page) => {
    await stage(page, 12);
    await page.getByText('Lengths and diameters at one scale').scrollIntoViewIfNeeded();
  }],
  ['job', 'Job file', 'The job file as a form, with a field that has lost its unit.', edited],
  ['ladder', 'Ladder', 'The ladder edited, with what it costs at the toe.', smaller],
  ['compare', 'Compare', 'Two versions of the plan.', null],
  ['rates', 'Pressures', 'Rate ceilings.', null],
  ['treating', 'Pressures', 'The treating pressure of every stage taken apart.', part('Treating pressure')],
  ['setting', 'Pressures', 'Pressure windows of the setting.', part('Setting windows')],
  ['balls', 'Pressures', 'Balls on their seats against their ratings.', part('Ball on seat')],
  ['swell', 'Swell', 'Swell clocks.', null],
  ['schedule', 'Schedule', 'Pump schedule with the launch and the landing window of the next ball.', null],
  ['cards', 'Ball cards', 'Ball cards.', null],
  ['pump', 'Pump', 'A run with a fault, at the third landing.', pumped],
  ['share', 'Print and share', 'Documents.', null],
];

async function shoot(browser, size) {
  const folder = mkdtempSync(join(tmpdir(), 'heelward-pictures-'));
  cpSync(join(root, 'jobs/long-lateral'), folder, { recursive: true });
  const [child, address] = await serve(folder);
  const page = watch(await browser.newPage({ viewport: { width: size[0], height: size[1] } }));
  await page.goto(address);
  await page.getByTestId('scale').waitFor();
  await page.getByLabel('Look', { exact: true }).selectOption(LOOKS[size[0]]);
  for (const [name, title, , act] of VIEWS) {
    await view(page, title);
    await settled(page);
    if (act) await act(page);
    await page.waitForTimeout(300);
    await page.screenshot({ path: join(out, `${name}-${size[0]}.jpg`), type: 'jpeg', quality: 62 });
    if (name === 'job') await page.getByRole('button', { name: 'Undo' }).click();
    await settled(page);
  }
  if (page.wrong.length > 0) throw new Error(page.wrong.join('\n'));
  child.kill();
  rmSync(folder, { recursive: true });
}

async function briefing(browser) {
  const folder = mkdtempSync(join(tmpdir(), 'heelward-pictures-'));
  const file = join(folder, 'briefing.html');
  command('briefing', join(root, 'jobs/long-lateral'), '--out', file);
  for (const [width, height] of SIZES) {
    const page = watch(await browser.newPage({ viewport: { width, height } }));
    await page.goto(`file://${file}`);
    for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Next landing' }).click();
    await page.getByTestId('now').scrollIntoViewIfNeeded();
    await page.screenshot({ path: join(out, `briefing-${width}.jpg`), type: 'jpeg', quality: 62 });
    await page.close();
  }
  rmSync(folder, { recursive: true });
}

mkdirSync(out, { recursive: true });
const browser = await browse();
for (const size of SIZES) await shoot(browser, size);
await briefing(browser);
await browser.close();
const rows = [...VIEWS, ['briefing', '', 'The briefing, one file without the program.']].map(([name, , text]) => {
  const cells = SIZES.map(([width]) => `![${text}](pictures/views/${name}-${width}.jpg)`);
  return `| ${text} | ${cells.join(' | ')} |`;
});
writeFileSync(join(root, 'docs/page-views.md'), `# Every view of the page

<!-- written by \`scripts/page_pictures\`; do not edit -->

The long lateral, an invented example, as a person sees each view on opening it: light at 1440 and 390 px, dark at 1024 px.

| view | ${SIZES.map(([w]) => `${w} px`).join(' | ')} |
| --- | --- | --- | --- |
${rows.join('\n')}
`);
