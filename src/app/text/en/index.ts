import { asBuilt } from "./asBuilt.ts";
import { car } from "./car.ts";
import { card } from "./card.ts";
import { corner } from "./corner.ts";
import { curves } from "./curves.ts";
import { cut } from "./cut.ts";
import { envelope } from "./envelope.ts";
import { exchange } from "./exchange.ts";
import { files } from "./files.ts";
import { gear } from "./gear.ts";
import { ghosts } from "./ghosts.ts";
import { jig } from "./jig.ts";
import { loads } from "./loads.ts";
import { log } from "./log.ts";
import { measure } from "./measure.ts";
import { moves } from "./moves.ts";
import { paper } from "./paper.ts";
import { parts } from "./parts.ts";
import { picture } from "./picture.ts";
import { pieces } from "./pieces.ts";
import { points } from "./points.ts";
import { projects } from "./projects.ts";
import { recipes } from "./recipes.ts";
import { room } from "./room.ts";
import { rule } from "./rule.ts";
import { scans } from "./scans.ts";
import { section } from "./section.ts";
import { service } from "./service.ts";
import { setup } from "./setup.ts";
import { setupQuestions } from "./setupQuestions.ts";
import { sheets } from "./sheets.ts";
import { shell } from "./shell.ts";
import { store } from "./store.ts";
import { studies } from "./studies.ts";
import { templates } from "./templates.ts";
import { together } from "./together.ts";
import { tools } from "./tools.ts";
import { viewport } from "./viewport.ts";
import { words } from "./words.ts";

/** One part a folder of the app that shows it; German stands beside it (../de). */
export const en = {
  asBuilt,
  car,
  card,
  corner,
  curves,
  cut,
  envelope,
  exchange,
  files,
  gear,
  ghosts,
  jig,
  loads,
  log,
  measure,
  moves,
  paper,
  parts,
  picture,
  pieces,
  points,
  projects,
  recipes,
  room,
  rule,
  scans,
  section,
  service,
  setup,
  setupQuestions,
  sheets,
  shell,
  store,
  studies,
  templates,
  together,
  tools,
  viewport,
  words,
} as const;
