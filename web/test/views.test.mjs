/** The views of pressures, swell, schedule and ball cards: what they show is what the engine answers. */
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { browse, picture, root, serve as start, view, watch } from '../browser/common.mjs';

/** A page that is being written, served by its own builder; the answers still come from the program. */
const elsewhere = process.env.HEELWARD_PAGE;
const JOBS = ['long-lateral', 'shallow-oil'];
const STAGE = 3;
const folders = [];
const servers = new Map();
let browser;

async function serve(job) {
  const folder = mkdtempSync(join(tmpdir(), 'heelward-views-'));
  folders.push(folder);
  cpSync(join(root, 'jobs', job), folder, { recursive: true });
  const [child, address] = await start(folder);
  servers.set(job, { child, address });
}

before(async () => {
  for (const job of JOBS) await serve(job);
  browser = await browse();
});

after(async () => {
  await browser?.close();
  for (const { child } of servers.values()) child.kill();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

const asked = async (job, body = {}) =>
  (await fetch(new URL('/api/plan', servers.get(job).address), { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })).json();

/** A page of a job that counts errors and requests that leave the machine; its plan may be changed on the way. */
async function open(job, { size = { width: 1440, height: 900 }, change } = {}) {
  const { address } = servers.get(job);
  const page = watch(await browser.newPage({ viewport: size }));
  const forward = async (route) => {
    const url = new URL(route.request().url());
    const { origin, referer, host, ...headers } = route.request().headers();
    return route.fetch({ url: new URL(url.pathname + url.search, address).href, headers });
  };
  if (elsewhere) await page.route('**/api/**', async (route) => route.fulfill({ response: await forward(route) }));
  if (change) {
    await page.route('**/api/plan', async (route) => {
      const plan = await (elsewhere ? await forward(route) : await route.fetch()).json();
      change(plan);
      await route.fulfill({ json: plan });
    });
  }
  await page.goto(elsewhere ?? address);
  await page.getByRole('heading', { level: 1 }).getByText('invented').waitFor();
  return page;
}
const part = (page, name) => page.getByRole('button', { name, exact: true }).click();

/** The numbers of a row of a table; a dash is none. */
async function row(page, table, key) {
  const cells = await page.getByTestId(table).locator(`tr${key}`).first().locator('th, td').allTextContents();
  return cells.map((c) => (c.trim() === '–' ? null : Number((c.match(/[-−]?\d[\d,]*(\.\d+)?/)?.[0] ?? 'NaN').replaceAll(',', '').replace('−', '-'))));
}
const FIELD = { pressure: [6894.757293168361, 0], rate: [0.158987294928 / 60, 1], volume: [0.158987294928, 1], mass: [0.45359237, 0], power: [745.6998715822702, 0], concentration: [119.82642731689664, 2] };
const METRIC = { pressure: [1e6, 2], rate: [1 / 60, 2], volume: [1, 2], mass: [1, 0], power: [1000, 0], concentration: [1, 0] };
const TIMES = { minutes: [60, 1], days: [86400, 1] };

/** That a number on the page is the engine's, to the decimals it is shown with. */
function same(got, si, kind, units, what) {
  if (si === null || si === undefined) return assert.equal(got, null, what);
  const [per, digits] = { ...(units === 'field' ? FIELD : METRIC), ...TIMES }[kind];
  assert.ok(Math.abs(got - si.value / per) <= 0.5001 * 10 ** -digits, `${what}: ${got} on the page, ${si.value / per} of the engine`);
}

for (const job of JOBS) {
  test(`${job}: rates, pressures, windows and balls on seats are those of the engine`, async () => {
    const plan = await asked(job);
    const u = plan.units;
    const page = await open(job);
    await view(page, 'Pressures');
    const stage = plan.stages.stages.find((s) => s.stage === STAGE);
    const rates = await row(page, 'ceilings', `[data-stage="${STAGE}"]`);
    [stage.planned_rate, stage.wanted_rate, stage.rate_ceiling].forEach((si, i) => same(rates[i + 1], si, 'rate', u, `rate ${i}`));
    assert.equal(rates[5], stage.seats_passed);
    same(rates[6], stage.pressure.seats, 'pressure', u, 'seats');
    same(rates[7], stage.power, 'power', u, 'power');
    await page.getByRole('button', { name: `point out stage ${STAGE}`, exact: true }).click();
    await picture(page, `pressures-${job}`);

    await part(page, 'Treating pressure');
    await page.getByRole('heading', { name: `Stage ${STAGE}, from the fracture` }).waitFor();
    const parts = await row(page, 'parts', `[data-stage="${STAGE}"]`);
    const p = stage.pressure;
    const column = { value: -p.hydrostatic.value };
    const room = { value: plan.limits.treating.value - p.surface.value };
    [p.fracture, column, p.pipe, p.seats, p.ports, p.near_wellbore, p.surface, room, stage.clean_pressure, stage.bottomhole, stage.shut_in]
      .forEach((si, i) => same(parts[i + 1], si, 'pressure', u, `part ${i}`));

    await part(page, 'Setting windows');
    for (const step of plan.setting.sheet) {
      const cells = await row(page, 'sheet', `[data-step="${step.step}"]`);
      [step.acts_from, step.low, step.target, step.high].forEach((si, i) => same(cells[i + 3], si, 'pressure', u, `step ${step.step}, ${i}`));
    }
    await picture(page, `setting-${job}`);

    await part(page, 'Ball on seat');
    const rung = plan.ladder.rungs.find((r) => r.stage === STAGE);
    const seat = await row(page, 'on-seat', `[data-stage="${STAGE}"]`);
    [rung.expected_differential, rung.worst_differential, rung.rating, rung.rating_when_cooled].forEach((si, i) => same(seat[i + 1], si, 'pressure', u, `on seat ${i}`));
    assert.equal(seat[5], Math.round(100 * rung.utilisation.value));
    assert.equal(seat[6], Math.round(100 * rung.worst_utilisation.value));
    assert.deepEqual(page.wrong, []);
    await page.close();
  });

  test(`${job}: the schedule of a stage and the ball that leaves in it`, async () => {
    const plan = await asked(job);
    const u = plan.units;
    const page = await open(job);
    await view(page, 'Schedule');
    await page.getByRole('combobox', { name: /^Stage/ }).selectOption(String(STAGE));
    const stage = plan.stages.stages.find((s) => s.stage === STAGE);
    for (const [i, step] of stage.steps.entries()) {
      const cells = await row(page, 'steps', `[data-step="${i + 1}"]`);
      const figures = [['concentration', step.from], ['concentration', step.to], ['volume', step.clean], ['volume', step.slurry], ['volume', step.cumulative], ['mass', step.mass], ['minutes', step.time], ['pressure', step.pressure]];
      figures.forEach(([kind, si], n) => same(cells[n + 4], si, kind, u, `step ${i + 1}, ${kind}`));
    }
    const all = await row(page, 'order', `[data-stage="${STAGE}"]`);
    [['rate', stage.planned_rate], ['volume', stage.clean], ['volume', stage.slurry], ['mass', stage.mass], ['minutes', stage.time], ['pressure', stage.pressure.surface]]
      .forEach(([kind, si], i) => same(all[i + 1], si, kind, u, kind));
    const ball = plan.balls.cards.find((c) => c.launched_during === STAGE);
    assert.equal(ball.stage, STAGE + 1);
    const launch = await page.getByRole('button', { name: `Ball ${ball.stage} leaves at` }).textContent();
    same(Number(launch.replace(/[^\d.]/g, '').replace(/\.$/, '').match(/\d+(\.\d+)?/)[0]), ball.launch_at, 'volume', u, 'launch');
    await picture(page, `schedule-${job}`);
    // The last stage has no ball to send.
    await page.getByRole('combobox', { name: /^Stage/ }).selectOption(String(plan.stages.stages.length));
    await page.getByTestId('no-ball').getByText('it is the last').waitFor();
    assert.deepEqual(page.wrong, []);
    await page.close();
  });

  test(`${job}: a card for every ball, gone through by arrows, each with its window`, async () => {
    const plan = await asked(job);
    const u = plan.units;
    const page = await open(job);
    await view(page, 'Ball cards');
    const cards = page.locator('article');
    const setting = plan.ladder.setting_ball ? 1 : 0;
    assert.equal(await cards.count(), plan.balls.cards.length + setting);
    const card = plan.balls.cards.find((c) => c.stage === STAGE);
    const at = page.getByRole('article', { name: `Card of the ball of stage ${STAGE}`, exact: true });
    const volumes = await at.locator('.volumes li').allTextContents();
    [card.rate_cut_at, card.window_opens, card.landing.p50, card.window_closes, card.missing_at]
      .forEach((si, i) => same(Number(volumes[i].replace(/[^\d.]/g, '')), si, 'volume', u, `volume ${i}`));
    const size = await at.locator('.size').textContent();
    assert.ok(Math.abs(parseFloat(size) - card.ball.value / (u === 'field' ? 0.0254 : 0.001)) < 6e-4, size);
    if (card.spacing_sigmas?.value < 3) await at.getByText('volume does not tell which seat it is on').waitFor();
    await cards.first().focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowUp');
    const there = await page.evaluate(() => document.activeElement?.dataset.stage);
    assert.equal(Number(there), plan.balls.cards[2 - setting].stage);
    await picture(page, `cards-${job}`);
    assert.deepEqual(page.wrong, []);
    await page.close();
  });

  test(`${job}: every figure opens to workings of its own value`, async () => {
    const plan = await asked(job);
    const values = new Map(plan.figures.map((f) => [f.name, f.value]));
    const page = await open(job);
    await page.route('**/api/working', (route) => route.fulfill({ json: { text: 'step 1 of 1' } }));
    const number = (text) => (text.match(/[-−]?\d[\d,]*(\.\d+)?/)?.[0] ?? '').replaceAll(',', '').replace('−', '-');
    const decimals = (text) => (text.split('.')[1] ?? '').length;
    let opened = 0;
    const check = async (most) => {
      const list = await page.locator('main button.figure').all();
      for (const button of list.slice(0, most)) {
        const text = (await button.textContent()).replace(/^(in stage \d+, at|before stage 1, at)/, '');
        const [request] = await Promise.all([page.waitForRequest('**/api/working'), button.evaluate((b) => b.click())]);
        const { figure } = request.postDataJSON();
        const value = values.get(figure);
        assert.ok(value !== undefined, `${figure} is no figure of the plan`);
        const share = /^\d+ %/.test(text) ? 100 : 1;
        const [a, b] = [number(text), number(value)];
        const near = 0.501 * (10 ** -decimals(a) + share * 10 ** -decimals(b));
        assert.ok(Math.abs(Number(a) - share * Number(b)) <= near, `${figure} is ${value}, the page shows ${text}`);
        opened += 1;
      }
    };
    await view(page, 'Pressures');
    for (const name of ['Rate ceilings', 'Treating pressure', 'Setting windows', 'Ball on seat']) {
      await part(page, name);
      await check(30);
    }
    for (const to of ['Swell', 'Schedule', 'Ball cards']) {
      await view(page, to);
      await page.locator('main button.figure').first().waitFor();
      await check(16);
    }
    assert.ok(opened > 100, `${opened} figures`);
    assert.deepEqual(page.wrong, []);
    await page.close();
  });

  test(`${job}: no view is wider than a telephone, light or dark`, async () => {
    for (const look of ['light', 'dark']) {
      const page = await open(job, { size: { width: 390, height: 844 } });
      await page.getByLabel('Look').selectOption(look);
      for (const to of ['Pressures', 'Swell', 'Schedule', 'Ball cards']) {
        await view(page, to);
        const parts = to === 'Pressures' ? ['Rate ceilings', 'Treating pressure', 'Setting windows', 'Ball on seat'] : [null];
        for (const name of parts) {
          if (name) await part(page, name);
          await page.locator('main .card').first().waitFor();
          const wide = await page.evaluate(() => document.documentElement.scrollWidth);
          assert.ok(wide <= 391, `${to} ${name ?? ''}: ${wide} px`);
          assert.doesNotMatch(await page.locator('main').textContent(), /NaN|undefined|Infinity/);
          await picture(page, `${to.toLowerCase().replace(' ', '-')}${name ? `-${name.toLowerCase().replace(' ', '-')}` : ''}-${job}-390-${look}`);
        }
      }
      assert.deepEqual(page.wrong, []);
      await page.close();
    }
  });
}

test('the clocks of packers that swell, and a plain word where none does', async () => {
  const plan = await asked('long-lateral');
  const { swell } = plan.setting;
  const page = await open('long-lateral');
  await view(page, 'Swell');
  const packer = swell.packers.find((p) => p.stage === STAGE);
  const cells = await row(page, 'packers', `[data-stage="${STAGE}"]`);
  [packer.contact.p10, packer.contact.p50, packer.contact.p90, packer.rating.p10, packer.rating.p50, packer.rating.p90, packer.rating_in_worst_hole]
    .forEach((si, i) => same(cells[i + 4], si, 'days', 'field', `day ${i}`));
  const wait = await page.getByTestId('wait').textContent();
  assert.match(wait, new RegExp(`${(swell.planned_wait.value / 86400).toFixed(1)} d is longer than the ${(swell.earliest_frac.value / 86400).toFixed(1)} d`));
  assert.equal(await page.getByRole('img', { name: /^The packer of stage/ }).count(), swell.charts.length);
  await picture(page, 'swell-long-lateral');
  assert.deepEqual(page.wrong, []);
  await page.close();

  const other = await open('shallow-oil');
  await view(other, 'Swell');
  await other.getByTestId('no-swell').getByText('No packer of this job swells').waitFor();
  await picture(other, 'swell-shallow-oil');
  await other.close();
});

test('a wait that ends too soon is told', async () => {
  const page = await open('long-lateral', { change: (plan) => { plan.setting.swell.planned_wait.value = 5 * 86400; plan.setting.swell.packers[1].rating = null; } });
  await view(page, 'Swell');
  await page.getByTestId('wait').getByText('ends before the earliest first ball').waitFor();
  await page.getByText('The packer of stage 2 never has its rating').waitFor();
  await page.close();
});

test('a figure opens to its workings, and other units change every figure', async () => {
  const metric = await asked('long-lateral', { units: 'metric' });
  const page = await open('long-lateral');
  await view(page, 'Pressures');
  await part(page, 'Treating pressure');
  await page.getByRole('button', { name: /^Treating pressure of stage 3:/ }).click();
  assert.match(await page.getByTestId('workings').textContent(), /step 1 of/);
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByTestId('parts').getByText('Parts of the highest treating pressure, psi').waitFor();
  await page.getByLabel('Units').selectOption('metric');
  await page.getByTestId('parts').getByText('Parts of the highest treating pressure, MPa').waitFor();
  const cells = await row(page, 'parts', `[data-stage="${STAGE}"]`);
  same(cells[7], metric.stages.stages[STAGE - 1].pressure.surface, 'pressure', 'metric', 'surface');
  assert.deepEqual(page.wrong, []);
  await page.close();
});

test('parts that could not be planned are named, and the rest is shown', async () => {
  const page = await open('long-lateral', { change: (plan) => { for (const key of ['stages', 'ladder', 'balls', 'setting', 'limits', 'highest_treating_pressure']) plan[key] = null; } });
  await view(page, 'Pressures');
  for (const name of ['Rate ceilings', 'Treating pressure', 'Setting windows', 'Ball on seat']) {
    await part(page, name);
    await page.getByTestId('missing').getByText('The findings say why').waitFor();
  }
  for (const to of ['Swell', 'Schedule', 'Ball cards']) {
    await view(page, to);
    await page.getByTestId('missing').waitFor();
  }
  assert.deepEqual(page.wrong, []);
  await page.close();

  const rest = await open('long-lateral', { change: (plan) => { plan.balls = null; plan.limits = null; plan.setting.swell = null; } });
  await view(rest, 'Schedule');
  await rest.getByText('When the next ball leaves could not be planned').waitFor();
  await view(rest, 'Swell');
  await rest.getByTestId('missing').getByText('The swell of the packers').waitFor();
  await view(rest, 'Pressures');
  await part(rest, 'Treating pressure');
  await rest.getByTestId('parts').waitFor();
  assert.deepEqual(rest.wrong, []);
  await rest.close();
});
