import { config } from "zod";

// the page's policy lets no text become code: schemas are walked through, never compiled, everywhere alike
config({ jitless: true });
