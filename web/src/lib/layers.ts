/** Layers of a picture that are drawn once and kept until what they show changes, so that a frame of the playback
 * draws only what moves. */

interface Layer {
  key: unknown[];
  canvas: HTMLCanvasElement;
}

const same = (a: readonly unknown[], b: readonly unknown[]) => a.length === b.length && a.every((v, i) => v === b[i]);

export class Layers {
  private readonly layers = new Map<string, Layer>();
  private readonly values = new Map<string, { key: unknown[]; value: unknown }>();
  private size: [number, number] = [0, 0];
  private dense = 1;

  /** Fits a canvas, and the layers that follow, to a size on a screen of so many dots a pixel. Its pen draws in
   * pixels. A canvas that fits already is left as it is. */
  fit(canvas: HTMLCanvasElement, size: [number, number], dense: number) {
    const [w, h] = [Math.round(size[0] * dense), Math.round(size[1] * dense)];
    if (canvas.width !== w) canvas.width = w;
    if (canvas.height !== h) canvas.height = h;
    canvas.getContext('2d')?.setTransform(dense, 0, 0, dense, 0, 0);
    this.size = [w, h];
    this.dense = dense;
  }

  /** Puts a layer on a picture; it is painted only where its key is another than before. */
  put(on: CanvasRenderingContext2D, name: string, key: readonly unknown[], paint: (pen: CanvasRenderingContext2D) => void) {
    const full = [...key, ...this.size, this.dense];
    const layer = this.layers.get(name) ?? { key: [], canvas: document.createElement('canvas') };
    if (!same(layer.key, full)) {
      const pen = layer.canvas.getContext('2d');
      if (!pen) return;
      [layer.canvas.width, layer.canvas.height] = this.size;
      pen.setTransform(this.dense, 0, 0, this.dense, 0, 0);
      pen.font = on.font;
      paint(pen);
      layer.key = full;
      this.layers.set(name, layer);
    }
    on.save();
    on.setTransform(1, 0, 0, 1, 0, 0);
    on.drawImage(layer.canvas, 0, 0);
    on.restore();
  }

  /** A value that is made anew only where its key is another than before. */
  once<T>(name: string, key: readonly unknown[], make: () => T): T {
    const kept = this.values.get(name);
    if (kept && same(kept.key, key)) return kept.value as T;
    const value = make();
    this.values.set(name, { key: [...key], value });
    return value;
  }
}
