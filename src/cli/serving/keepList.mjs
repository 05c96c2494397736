// `npm run licences`: keeps the list that the build made beside the source, where reviewers see what it gained.
import { copyFileSync } from "node:fs";

const root = new URL("../../../", import.meta.url);
copyFileSync(new URL("dist/third-party.txt", root), new URL("assets/third-party.txt", root));
