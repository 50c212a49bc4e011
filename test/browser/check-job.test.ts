/** A check in the worker on the demo's own files, and the picture for delivery: a file without any data about place or camera. */
import { expect } from 'chai';
import type { Corners } from '../../core/index.js';
import { startCore, type Core } from '../../core/worker/client.js';

interface Painted {
  paper: { widthMm: number };
  brushMm: number;
  thresholds: number[];
  targets: number[];
  stages: { file: string; corners: Corners }[];
}

const get = (name: string): Promise<Response> => fetch(`/demo/pictures/${name}`);

describe('checks in the worker', () => {
  let core: Core | undefined;
  afterEach(() => core?.dispose());

  it('checks a photo file and tells how far it has come', async function () {
    this.timeout(60_000);
    const painted = (await (await get('painted.json')).json()) as Painted;
    core = await startCore();
    const photo = await core.open(await (await get('clay-dog-900.jpg')).blob());
    const stage = painted.stages[1];
    const painting = await core.open(await (await get(stage.file)).blob());
    const plan = {
      picture: photo.id,
      thresholds: painted.thresholds,
      brushMm: painted.brushMm,
      paperWidthMm: painted.paper.widthMm,
    };
    const stages = new Set<string>();
    const report = await core.run(
      'check',
      { picture: painting.id, corners: stage.corners, plan, targets: painted.targets },
      { onProgress: ({ stage: name }) => stages.add(name) },
    );
    expect(report.comparison.agreement).to.be.above(0.9);
    expect(report.comparison.lostReserves.length).to.be.above(0);
    expect(report.islands).to.have.length(1);
    expect(report.rectified.bitmap).to.be.instanceOf(ImageBitmap);
    expect(report.rectified.bitmap!.width).to.equal(report.rectified.plane.width);
    expect(stages.size).to.be.above(2);
    // The plan's masses are kept in the worker: what was handed over before does not empty them.
    const again = await core.run('check', {
      picture: painting.id,
      corners: stage.corners,
      plan,
      targets: painted.targets,
    });
    expect(again.comparison).to.deep.equal(report.comparison);
  });

  it('makes one picture of painting, plan and photo, with nothing in it but the picture', async function () {
    this.timeout(60_000);
    const painted = (await (await get('painted.json')).json()) as Painted;
    core = await startCore();
    const photo = await core.open(await (await get('clay-dog-900.jpg')).blob());
    const stage = painted.stages[2];
    const painting = await core.open(await (await get(stage.file)).blob());
    const plan = {
      picture: photo.id,
      thresholds: painted.thresholds,
      brushMm: painted.brushMm,
      paperWidthMm: painted.paper.widthMm,
    };
    const { file, plane } = await core.run('delivery', {
      picture: painting.id,
      corners: stage.corners,
      plan,
      targets: painted.targets,
      height: 400,
    });
    expect(file!.type).to.equal('image/jpeg');
    const bitmap = await createImageBitmap(file!);
    expect([bitmap.width, bitmap.height]).to.deep.equal([plane.width, plane.height]);
    const text = new TextDecoder('latin1').decode(await file!.arrayBuffer());
    for (const mark of ['Exif', 'http://ns.adobe.com', 'GPS', 'Photoshop'])
      expect(text.includes(mark), mark).to.equal(false);

    const upright = await core.run('rectified', {
      picture: painting.id,
      corners: stage.corners,
      aspect: 0.75,
      width: 300,
    });
    expect(upright.file!.type).to.equal('image/png');
    const own = await createImageBitmap(upright.file!);
    expect([own.width, own.height]).to.deep.equal([300, 400]);
  });
});
