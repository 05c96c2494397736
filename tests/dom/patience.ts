import { configure } from "@testing-library/react";

// a loaded machine must not fail a test; nothing is timed
configure({ asyncUtilTimeout: 30_000 });
