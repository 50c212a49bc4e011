/**
 * A distance field baked into a grid. Marching a ray through a grid costs the same however many
 * solids a shape is made of; that is what makes the picture affordable.
 */

export class Field {
  /**
   * @param {number[]} box [x0, y0, z0, x1, y1, z1] in the shape's own axes
   * @param {number} cell edge of a grid cell, scene units
   * @param {SharedArrayBuffer} [shared] a grid baked before, to be used as it is
   */
  constructor(box, cell, shared) {
    this.box = box;
    this.cell = cell;
    this.nx = Math.ceil((box[3] - box[0]) / cell) + 1;
    this.ny = Math.ceil((box[4] - box[1]) / cell) + 1;
    this.nz = Math.ceil((box[5] - box[2]) / cell) + 1;
    this.shared = shared ?? new SharedArrayBuffer(this.nx * this.ny * this.nz * 4);
    this.data = new Float32Array(this.shared);
  }

  /**
   * Fills the grid from `distance(x, y, z)`. Only every fourth node is worked out far from the
   * surface; the cells between take a distance that is safely too short.
   */
  bake(distance) {
    const { nx, ny, nz, cell, box, data } = this;
    const block = 4;
    const reach = cell * block * 1.8;
    for (let k = 0; k < nz; k += block) {
      for (let j = 0; j < ny; j += block) {
        for (let i = 0; i < nx; i += block) {
          const mid = distance(
            box[0] + (i + 1.5) * cell,
            box[1] + (j + 1.5) * cell,
            box[2] + (k + 1.5) * cell,
          );
          const far = Math.abs(mid) > reach * 2;
          for (let c = k; c < Math.min(k + block, nz); c++) {
            for (let b = j; b < Math.min(j + block, ny); b++) {
              for (let a = i; a < Math.min(i + block, nx); a++) {
                data[(c * ny + b) * nx + a] = far
                  ? mid - Math.sign(mid) * cell * 2.6
                  : distance(box[0] + a * cell, box[1] + b * cell, box[2] + c * cell);
              }
            }
          }
        }
      }
    }
    return this;
  }

  /** Distance at a point, trilinear; points outside the box read its border. */
  at(x, y, z) {
    const { nx, ny, nz, cell, box, data } = this;
    let gx = (x - box[0]) / cell;
    let gy = (y - box[1]) / cell;
    let gz = (z - box[2]) / cell;
    gx = gx < 0 ? 0 : gx > nx - 1.001 ? nx - 1.001 : gx;
    gy = gy < 0 ? 0 : gy > ny - 1.001 ? ny - 1.001 : gy;
    gz = gz < 0 ? 0 : gz > nz - 1.001 ? nz - 1.001 : gz;
    const ix = gx | 0;
    const iy = gy | 0;
    const iz = gz | 0;
    const fx = gx - ix;
    const fy = gy - iy;
    const fz = gz - iz;
    const p = (iz * ny + iy) * nx + ix;
    const q = p + nx;
    const r = p + nx * ny;
    const s = r + nx;
    const a = data[p] + (data[p + 1] - data[p]) * fx;
    const b = data[q] + (data[q + 1] - data[q]) * fx;
    const c = data[r] + (data[r + 1] - data[r]) * fx;
    const d = data[s] + (data[s + 1] - data[s]) * fx;
    const e = a + (b - a) * fy;
    return e + (c + (d - c) * fy - e) * fz;
  }

  /**
   * First meeting of a ray with the surface; 0 for a ray that starts inside.
   * @returns {number} the distance along the ray, or -1 when it misses before `limit`
   */
  march(ox, oy, oz, dx, dy, dz, limit) {
    const { box } = this;
    let near = 0;
    let far = limit;
    let a = (box[0] - ox) / dx;
    let b = (box[3] - ox) / dx;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
    a = (box[1] - oy) / dy;
    b = (box[4] - oy) / dy;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
    a = (box[2] - oz) / dz;
    b = (box[5] - oz) / dz;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
    if (!(near < far)) return -1;
    const least = this.cell * 0.08;
    let t = near + 1e-5;
    for (let i = 0; i < 220 && t < far; i++) {
      const d = this.at(ox + dx * t, oy + dy * t, oz + dz * t);
      if (d < least) return Math.max(0, t + d);
      t += d * 0.85;
    }
    return -1;
  }
}
