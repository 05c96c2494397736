/** A pair farther apart than the required clearance by more than this is measured less finely, mm. */
const NEAR_mm = 5;
const FINE_mm = 0.01;
const COARSE_mm = 0.1;
/** Beyond the required clearance by more than this, nobody looks at the plot, mm. */
const PLOTTED_mm = 25;

/** What a depth may fall short of the deepest: so many mm, or so much of it if that is more. */
interface DepthTolerance {
  readonly least_mm: number;
  readonly share: number;
}

/** Over the travel of one pose. */
const DEPTH: DepthTolerance = { least_mm: 0.05, share: 0.02 };
/** On the way between two poses: a depth that stays alike over travel and share would ask for some ten times the states. */
const DEPTH_ON_WAY: DepthTolerance = { least_mm: 0.1, share: 0.05 };
const SAMPLED_DEPTH: DepthTolerance = { least_mm: 0.5, share: 0.05 };

/** How finely a pair is swept, by the clearance asked for and whether the depth of its overlaps is sampled. */
export class SweepTolerance {
  /** Clearances below this are plotted, mm. */
  readonly plotted_mm: number;
  /** What the deepest state may fall short of its neighbours in travel, mm. */
  readonly polish_mm: number;
  private readonly near_mm: number;
  private readonly depth: DepthTolerance;
  private readonly depthOnWay: DepthTolerance;

  constructor(required_mm: number, samplesDepth: boolean) {
    this.plotted_mm = required_mm + PLOTTED_mm;
    this.near_mm = required_mm + NEAR_mm;
    this.depth = samplesDepth ? SAMPLED_DEPTH : DEPTH;
    this.depthOnWay = samplesDepth ? SAMPLED_DEPTH : DEPTH_ON_WAY;
    this.polish_mm = this.depth.least_mm;
  }

  /** In a pose whose worst is `worst_mm`, `least_mm` being the least of all poses, no clearance below this is looked for. */
  floorInPose(worst_mm: number, least_mm: number): number {
    return this.floor(worst_mm, least_mm, this.depth);
  }

  /** The same on the way from rest to a pose. */
  floorOnWay(worst_mm: number, least_mm: number): number {
    return this.floor(worst_mm, least_mm, this.depthOnWay);
  }

  private floor(worst_mm: number, least_mm: number, depth: DepthTolerance): number {
    const ofAll = least_mm - this.shortOf(least_mm, depth);
    // a pose that is far from everything need not be told as finely as the worst one
    if (least_mm > this.plotted_mm) return ofAll;
    return Math.max(worst_mm - Math.max(COARSE_mm, this.shortOf(worst_mm, depth)), ofAll);
  }

  private shortOf(worst_mm: number, { least_mm, share }: DepthTolerance): number {
    if (worst_mm < 0) return Math.max(least_mm, -worst_mm * share);
    return worst_mm <= this.near_mm ? FINE_mm : COARSE_mm;
  }
}
