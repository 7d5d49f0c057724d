/** What the tests of the page share: the program, a server of it, a browser, and a page that counts what must
 * not be. */
import { spawn, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const program = process.env.HEELWARD ?? join(root, 'target/release/heelward');
const pictures = process.env.PAGE_PICTURES;

/** Starts the page of a job: the process and its address. */
export async function serve(job) {
  const child = spawn(program, ['serve', job], { stdio: ['ignore', 'pipe', 'pipe'] });
  const at = await new Promise((resolve, reject) => {
    child.stdout.once('data', (d) => resolve(String(d).trim().split('\n')[0]));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
  return [child, at];
}

/** Runs the command to its end. */
export const command = (...words) => spawnSync(program, words, { encoding: 'utf8', maxBuffer: 64 << 20 });

/** The machine's own browser, which asks nothing of the network. */
export const browse = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });

/** Counts errors, and requests that leave the machine. */
export function watch(page) {
  page.wrong = [];
  page.on('console', (m) => m.type() === 'error' && page.wrong.push(m.text()));
  page.on('pageerror', (e) => page.wrong.push(e.message));
  page.on('request', (r) => {
    if (!/^(data|blob|file):/.test(r.url()) && !['127.0.0.1', 'localhost'].includes(new URL(r.url()).hostname)) page.wrong.push(r.url());
  });
  return page;
}

/** A page of an address that counts what must not be, with its first picture of the well. */
export async function openAt(browser, address, size = { width: 1440, height: 900 }) {
  const page = watch(await browser.newPage({ viewport: size }));
  await page.goto(address);
  await page.getByTestId('scale').waitFor();
  return page;
}

/** Goes to a view, and waits until the page has turned to it. */
export async function view(page, name) {
  const link = page.getByRole('navigation', { name: 'Views' }).getByRole('link', { name, exact: true });
  await link.click();
  await link.and(page.locator('[aria-current=page]')).waitFor();
}

/** Leaves a picture where one is asked for. */
export const picture = async (page, name) => pictures && page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
