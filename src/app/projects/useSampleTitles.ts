import { useEffect, useState } from "react";
import { SAMPLES, titleOf } from "./samples.ts";

/** Titles of the samples; the names of their files in words until they are read. */
export function useSampleTitles(): readonly string[] {
  const [titles, setTitles] = useState<readonly string[]>(SAMPLES.map(({ name }) => name));
  useEffect(() => {
    let wanted = true;
    void Promise.all(SAMPLES.map(titleOf)).then((found) => wanted && setTitles(found));
    return () => {
      wanted = false;
    };
  }, []);
  return titles;
}
