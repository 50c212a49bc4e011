import type { Crop, Spot } from '../shared/core.js';
import { fromPicture, toPicture, type Box, type Sight } from './stage.js';
import type { StageView } from './stage-tool.js';

/** What the stage shows and where it stands on the screen. */
export interface StageState {
  rect: DOMRect;
  sight: Sight;
  box: Box;
  /** The part of the photo that is shown. */
  crop: Crop;
  /** Size of the upright photo in pixels. */
  photo: { width: number; height: number };
}

/** From places on the photo to places on the stage and back. */
export function stageViewOf({ rect, sight, box, crop, photo }: StageState): StageView {
  const { width, height } = rect;
  const longer = Math.max(photo.width, photo.height);
  return {
    width,
    height,
    toPhoto(clientX, clientY): Spot {
      const [u, v] = toPicture(
        sight,
        box,
        (clientX - rect.left) / width,
        (clientY - rect.top) / height,
      );
      return [crop.x + u * crop.width, crop.y + v * crop.height];
    },
    toStage([x, y]) {
      const u = (x - crop.x) / crop.width;
      const v = (y - crop.y) / crop.height;
      const [px, py] = fromPicture(sight, box, u, v);
      return [px * width, py * height];
    },
    toStageLength: (fraction) =>
      (fraction * longer * box.width * sight.zoom * width) / (crop.width * photo.width),
  };
}
