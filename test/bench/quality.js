/**
 * How well masses state a picture, and the plain way that they are held against: threshold the plane and let parts smaller than
 * some area go to the neighbour of the longest border. Nothing here uses the project's own masses.
 */

/** Labels of the 4-connected parts of equal value, by flooding. */
export function floodParts(data, width) {
  const labels = new Int32Array(data.length).fill(-1);
  const stack = new Int32Array(data.length);
  let count = 0;
  for (let seed = 0; seed < data.length; seed++) {
    if (labels[seed] >= 0) continue;
    const value = data[seed];
    let top = 0;
    stack[top++] = seed;
    labels[seed] = count;
    while (top > 0) {
      const at = stack[--top];
      const x = at % width;
      const reach = (to) => {
        if (labels[to] >= 0 || data[to] !== value) return;
        labels[to] = count;
        stack[top++] = to;
      };
      if (x > 0) reach(at - 1);
      if (x + 1 < width) reach(at + 1);
      if (at >= width) reach(at - width);
      if (at + width < data.length) reach(at + width);
    }
    count++;
  }
  return { labels, count };
}

/** Parts of a band map, smallest first absorbed until all have `least` pixels. Returns labels 0.. and their count. */
export function absorbed(bands, width, least) {
  const { labels, count } = floodParts(bands, width);
  const parent = Int32Array.from({ length: count }, (_, i) => i);
  const find = (part) => {
    while (parent[part] !== part) part = parent[part] = parent[parent[part]];
    return part;
  };
  const area = new Float64Array(count);
  const band = new Uint8Array(count);
  const borders = Array.from({ length: count }, () => new Map());
  const meet = (a, b) => {
    borders[a].set(b, (borders[a].get(b) ?? 0) + 1);
    borders[b].set(a, (borders[b].get(a) ?? 0) + 1);
  };
  for (let i = 0; i < labels.length; i++) {
    const a = labels[i];
    area[a]++;
    band[a] = bands[i];
    if ((i + 1) % width !== 0 && labels[i + 1] !== a) meet(a, labels[i + 1]);
    if (i + width < labels.length && labels[i + width] !== a) meet(a, labels[i + width]);
  }
  /** `gone` becomes part of `into`; whichever has fewer neighbours is moved. */
  const unite = (gone, into) => {
    const kept = band[into];
    const [small, large] = borders[gone].size < borders[into].size ? [gone, into] : [into, gone];
    parent[small] = large;
    area[large] += area[small];
    band[large] = kept;
    for (const [other, length] of borders[small]) {
      borders[other].delete(small);
      if (other === large) continue;
      borders[large].set(other, (borders[large].get(other) ?? 0) + length);
      borders[other].set(large, (borders[other].get(large) ?? 0) + length);
    }
    borders[large].delete(small);
    borders[small] = new Map();
    return large;
  };
  const order = Array.from({ length: count }, (_, i) => i).sort((a, b) => area[a] - area[b]);
  let left = count;
  for (const first of order) {
    let part = find(first);
    if (area[part] >= least || borders[part].size === 0) continue;
    const [into] = [...borders[part]].reduce((most, one) => (one[1] > most[1] ? one : most));
    part = unite(part, into);
    left--;
    for (;;) {
      const alike = [...borders[part].keys()].find((other) => band[other] === band[part]);
      if (alike === undefined) break;
      part = unite(alike, part);
      left--;
    }
  }
  const numbers = new Int32Array(count).fill(-1);
  let next = 0;
  const out = new Int32Array(labels.length);
  for (let i = 0; i < labels.length; i++) {
    const root = find(labels[i]);
    if (numbers[root] < 0) numbers[root] = next++;
    out[i] = numbers[root];
  }
  return { labels: out, count: left };
}

/** The absorbed parts whose count comes nearest `wanted`: the least area is searched for. */
export function absorbedTo(bands, width, wanted) {
  let low = 0;
  let high = Math.log2(bands.length);
  let best;
  for (let step = 0; step < 22; step++) {
    const middle = (low + high) / 2;
    const made = absorbed(bands, width, 2 ** middle);
    if (!best || Math.abs(made.count - wanted) < Math.abs(best.count - wanted)) best = made;
    if (made.count === wanted) break;
    if (made.count > wanted) low = middle;
    else high = middle;
  }
  return best;
}

/** Band of each pixel. */
export function bandsOfCodes(codes, thresholds) {
  const table = Uint8Array.from(
    { length: 256 },
    (_, code) => thresholds.filter((t) => code > t).length,
  );
  return Uint8Array.from(codes, (code) => table[code]);
}

/** Mean of |L* - mean of the pixel's region|. */
export function meanError(codes, labels, count) {
  const sum = new Float64Array(count);
  const area = new Float64Array(count);
  for (let i = 0; i < codes.length; i++) {
    sum[labels[i]] += codes[i];
    area[labels[i]]++;
  }
  let error = 0;
  for (let i = 0; i < codes.length; i++)
    error += Math.abs(codes[i] - sum[labels[i]] / area[labels[i]]);
  return error / codes.length / 2.55;
}

function blurred(values, width, height, sigma) {
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-((k - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((a, b) => a + b, 0);
  const pass = (from, length, step, lines, stride) => {
    const to = new Float64Array(from.length);
    for (let line = 0; line < lines; line++) {
      for (let i = 0; i < length; i++) {
        let sum = 0;
        for (let k = -reach; k <= reach; k++) {
          const j = Math.min(length - 1, Math.max(0, i + k));
          sum += weights[k + reach] * from[line * stride + j * step];
        }
        to[line * stride + i * step] = sum / total;
      }
    }
    return to;
  };
  return pass(pass(values, width, 1, height, width), height, width, width, 1);
}

/**
 * Strong edges (Canny 1986): gradient of the Gaussian-smoothed plane (sigma 2 px), thinned across its direction, kept from a
 * high threshold on that the strongest tenth of the picture's gradients pass, and followed down to 0.4 of it.
 */
export function strongEdges(codes, width, height, sigma = 2) {
  const smooth = blurred(Float64Array.from(codes), width, height, sigma);
  const gx = new Float64Array(codes.length);
  const gy = new Float64Array(codes.length);
  const size = new Float64Array(codes.length);
  for (let y = 1; y + 1 < height; y++) {
    for (let x = 1; x + 1 < width; x++) {
      const i = y * width + x;
      gx[i] = smooth[i + 1] - smooth[i - 1];
      gy[i] = smooth[i + width] - smooth[i - width];
      size[i] = Math.hypot(gx[i], gy[i]);
    }
  }
  const high = Float64Array.from(size).sort()[Math.floor(0.9 * size.length)];
  const thin = new Uint8Array(codes.length);
  const stack = [];
  for (let y = 1; y + 1 < height; y++) {
    for (let x = 1; x + 1 < width; x++) {
      const i = y * width + x;
      if (size[i] < 0.4 * high) continue;
      const octant = Math.round(Math.atan2(gy[i], gx[i]) / (Math.PI / 4)) & 3;
      const step = [1, width + 1, width, width - 1][octant];
      if (size[i] < size[i - step] || size[i] <= size[i + step]) continue;
      thin[i] = 1;
      if (size[i] >= high) {
        thin[i] = 2;
        stack.push(i);
      }
    }
  }
  while (stack.length > 0) {
    const i = stack.pop();
    for (const step of [-1, 1, -width, width, -width - 1, -width + 1, width - 1, width + 1]) {
      if (thin[i + step] !== 1) continue;
      thin[i + step] = 2;
      stack.push(i + step);
    }
  }
  return thin.map((kind) => (kind === 2 ? 1 : 0));
}

const isBorder = (labels, width, i) =>
  ((i + 1) % width !== 0 && labels[i + 1] !== labels[i]) ||
  (i % width !== 0 && labels[i - 1] !== labels[i]) ||
  (i + width < labels.length && labels[i + width] !== labels[i]) ||
  (i >= width && labels[i - width] !== labels[i]);

/** Share of edge pixels that lie within `reach` pixels of a border between regions. */
export function edgesMet(edges, labels, width, height, reach = 2) {
  let met = 0;
  let all = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (edges[y * width + x] === 0) continue;
      all++;
      let near = false;
      for (let dy = -reach; dy <= reach && !near; dy++) {
        for (let dx = -reach; dx <= reach && !near; dx++) {
          const [column, row] = [x + dx, y + dy];
          if (dx * dx + dy * dy > reach * reach) continue;
          if (column < 0 || row < 0 || column >= width || row >= height) continue;
          near = isBorder(labels, width, row * width + column);
        }
      }
      if (near) met++;
    }
  }
  return all === 0 ? 1 : met / all;
}

/**
 * Roughness of borders: at each border pixel, how far the share of its own region in the disc about it lies from the half
 * that a straight border gives (the area invariant of Manay, Cremers, Hong, Yezzi & Soatto 2006), doubled: 0 straight, 1
 * a lone pixel or a hair.
 */
export function roughness(labels, width, height, radius) {
  let sum = 0;
  let count = 0;
  for (let y = radius; y < height - radius; y++) {
    for (let x = radius; x < width - radius; x++) {
      const i = y * width + x;
      if (!isBorder(labels, width, i)) continue;
      let own = 0;
      let all = 0;
      for (let dy = -radius; dy <= radius; dy++) {
        const half = Math.floor(Math.sqrt(radius * radius - dy * dy));
        for (let at = i + dy * width - half; at <= i + dy * width + half; at++) {
          all++;
          if (labels[at] === labels[i]) own++;
        }
      }
      sum += Math.abs((2 * own) / all - 1);
      count++;
    }
  }
  return count === 0 ? 0 : sum / count;
}

/** The three figures of a division of a picture; edges as of {@link strongEdges}. */
export function qualityOf(codes, edges, labels, count, width, height, brushPx) {
  return {
    count,
    error: meanError(codes, labels, count),
    edges: edgesMet(edges, labels, width, height),
    roughness: roughness(labels, width, height, Math.max(2, Math.round(brushPx / 8))),
  };
}
