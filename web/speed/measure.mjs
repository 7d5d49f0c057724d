/** Measures the page in a browser and writes docs/page-speed.md; see scripts/page_speed. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { browse, root, serve, watch } from '../browser/common.mjs';
import { judged, median } from './trace.mjs';

const JOB = 'jobs/long-lateral';
const TURNS = 5;
const PLAYED = 10_000;
const SIZE = { width: 1440, height: 1200 };
const TRACE = ['benchmark', 'cc', 'viz', 'toplevel', 'devtools.timeline', '__metadata'];

/** Waits in the page for the first picture of the well: its canvas is there, drawn, and the frame is out. */
function firstView() {
  const drawn = () => {
    const canvas = document.querySelector('canvas[role="application"]');
    const pen = canvas?.getContext('2d');
    return pen && pen.getImageData(canvas.width >> 1, canvas.height >> 1, 1, 1).data[3] > 0;
  };
  requestAnimationFrame(function turn() {
    if (!drawn()) return requestAnimationFrame(turn);
    // The next frame begins after this one was painted.
    requestAnimationFrame(() => { globalThis.firstView = performance.now(); });
  });
}

async function first(browser, address) {
  const times = [];
  for (let i = 0; i < TURNS; i++) {
    const context = await browser.newContext({ viewport: SIZE });
    const page = watch(await context.newPage());
    await page.addInitScript(firstView);
    await page.goto(address);
    times.push(await (await page.waitForFunction(() => globalThis.firstView)).jsonValue());
    if (page.wrong.length > 0) throw new Error(page.wrong.join('\n'));
    await context.close();
  }
  return times;
}

async function scripts(address) {
  const page = await (await fetch(address)).text();
  const names = [...page.matchAll(/(?:src|href)="\/?(assets\/[^"]+\.js)"/g)].map((m) => m[1]);
  const files = await Promise.all(names.map(async (n) => Buffer.from(await (await fetch(address + n)).arrayBuffer())));
  return { plain: files.reduce((s, f) => s + f.length, 0), packed: files.reduce((s, f) => s + gzipSync(f, { level: 9 }).length, 0) };
}

/** Samples of a run that is asked for with this body. */
async function samples(address, body) {
  const answer = await fetch(`${address}api/run`, { method: 'POST', headers: { 'content-type': 'application/json' }, body });
  const bytes = Buffer.from(await answer.arrayBuffer());
  return JSON.parse(bytes.subarray(4, 4 + bytes.readUInt32LE(0)).toString()).samples;
}

const choice = (page, title) => page.locator('label', { hasText: title }).locator('select');

async function played(browser, address, set) {
  const context = await browser.newContext({ viewport: SIZE });
  const page = watch(await context.newPage());
  let asked = '';
  page.on('request', (r) => r.url().endsWith('/api/run') && (asked = r.postData()));
  await page.goto(address);
  await page.getByRole('navigation', { name: 'Views' }).getByRole('link', { name: 'Pump', exact: true }).click();
  await choice(page, /^Samples/).selectOption({ label: 'every 0.5 s, 0.05 s round events' });
  await page.getByRole('button', { name: 'Pump the job' }).click();
  await page.getByTestId('now').waitFor({ timeout: 120_000 });
  await page.getByLabel('Speed').selectOption({ label: '× 300' });
  await set(page);
  await page.locator('.plot').evaluate((e) => e.scrollIntoView());
  for (const part of ['.plot', 'canvas[role="application"]']) {
    const box = await page.locator(part).boundingBox();
    if (box.y < 0 || box.y + box.height > SIZE.height) throw new Error(`${part} is not in view`);
  }
  await page.getByRole('button', { name: 'Play', exact: true }).evaluate((b) => b.click());
  await page.waitForTimeout(500);
  await browser.startTracing(page, { categories: TRACE });
  await page.waitForTimeout(PLAYED);
  const trace = await browser.stopTracing();
  if (process.env.KEEP_TRACE) writeFileSync(process.env.KEEP_TRACE, trace);
  if (page.wrong.length > 0) throw new Error(page.wrong.join('\n'));
  await context.close();
  return { points: await samples(address, asked), ...judged(trace) };
}

const near = async (page) => {
  await page.getByLabel('Stretch of diameters').fill('6');
  await choice(page, /^Stage/).selectOption('3');
  await page.getByLabel('In sight').selectOption({ label: '2 h' });
};
const VIEWS = [
  ['whole well, whole job', async () => {}],
  ['a stage from near by with diameters × 64, a window of 2 h that moves', near],
];

function machine(browser) {
  const node = process.version;
  const processor = cpus()[0]?.model ?? 'a processor without a name';
  return `${processor}, ${cpus().length} cores, on which ${load.toFixed(1)} other tasks ran; ${browser.browserType().name()} ${browser.version()} without a graphics card, Node ${node}`;
}

const percent = (x) => `${(100 * x).toFixed(1)} %`;

function page({ machine, times, script, runs }) {
  const rows = runs.map(([name, r]) => `| ${name} | ${r.points.toLocaleString('en-US')} | ${r.frames} in ${r.seconds.toFixed(1)} s | ${r.rate.toFixed(1)} | ${r.median.toFixed(1)} | ${percent(r.over16)} | ${percent(r.missed)} | ${percent(r.over33)} | ${r.longest.toFixed(0)} | ${r.work.toFixed(1)} |`);
  return `# Speed of the page

<!-- written by \`scripts/page_speed\`; do not edit -->

Measured by \`scripts/page_speed\` on: ${machine}. The page is that of \`heelward serve ${JOB}\`, on the loopback address.

## The first view

From the start of the navigation to the first painted picture of the well, planning included, each in a browser
context of its own with nothing kept: ${times.map((t) => t.toFixed(0)).join(', ')} ms; the median is **${median(times).toFixed(0)} ms**.

All script of the page: ${(script.packed / 1000).toFixed(1)} kB packed with gzip, ${(script.plain / 1000).toFixed(1)} kB as it is. On the loopback it is sent as it is.

## Playback

The job of thirty stages at × 300, charts and well in view on a window of ${SIZE.width} by ${SIZE.height}, ${PLAYED / 1000} s of it. Frames are those that
the browser's trace reports as presented, and the times are those between one and the next. There is no screen here
that holds frames back to its beat: each is presented when it is ready, some ms before or after its turn, so about half
of the times are over 16.7 ms even where no frame is lost. A turn is missed where a frame comes more than 25 ms after
the one before.

| in sight | points a channel | frames presented | frames a second | median, ms | over 16.7 ms | missed a turn | over 33 ms | longest, ms | processor of the page a frame, ms |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
${rows.join('\n')}
`;
}

const load = loadavg()[0];
const [server, address] = await serve(join(root, JOB));
const browser = await browse();
try {
  const times = await first(browser, address);
  const script = await scripts(address);
  const runs = [];
  for (const [name, set] of VIEWS) runs.push([name, await played(browser, address, set)]);
  const text = page({ machine: machine(browser), times, script, runs });
  if (!process.env.DRY) writeFileSync(join(root, 'docs/page-speed.md'), text);
  console.log(text);
} finally {
  await browser.close();
  server.kill();
}
