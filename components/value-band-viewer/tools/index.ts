/** The viewer's tools, loaded when the first one is taken up. */
import type { StageTool, ToolHost } from '../stage-tool.js';
import { CropTool } from './crop-tool.js';
import { ProposalsTool } from './proposals-tool.js';
import { RangeTool } from './range-tool.js';
import { RehearsalTool } from './rehearsal-tool.js';
import { ReportTool } from './report-tool.js';
import { ShapesTool } from './shapes-tool.js';
import { SitterTool } from './sitter-tool.js';
import { SpotTool } from './spot-tool.js';

import { rehearsalWords } from '../../shared/words/rehearsal.js';
import { shapesWords } from '../../shared/words/shapes.js';
import { toolsWords as words } from '../../shared/words/tools.js';
import { unitsFilesWords } from '../../shared/words/units-files.js';
import type { Words } from '../../shared/strings.js';

export const toolsWords: Words = {
  ...unitsFilesWords,
  ...words,
  ...rehearsalWords,
  ...shapesWords,
};
export { toolsStyles } from './tools.styles.js';

/** One of each tool for a viewer, in the order in which a painter comes to them. */
export function makeTools(host: ToolHost): StageTool[] {
  return [
    new CropTool(host),
    new SitterTool(host),
    new ProposalsTool(host),
    new SpotTool(host),
    new RangeTool(host),
    new ShapesTool(host),
    new RehearsalTool(host),
    new ReportTool(host),
  ];
}
