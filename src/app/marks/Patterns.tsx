/** The patterns that double the colours of clash (hatch), tight (dots) and castings (stipple); drawn once, used by id. */
export function Patterns() {
  return (
    <svg width="0" height="0" style={{ position: "absolute" }} aria-hidden="true">
      <defs>
        <pattern id="pattern-clash" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="7" height="7" fill="var(--clash)" />
          <rect width="2.2" height="7" fill="var(--ink)" opacity="0.55" />
        </pattern>
        <pattern id="pattern-tight" width="6" height="6" patternUnits="userSpaceOnUse">
          <rect width="6" height="6" fill="var(--tight)" />
          <circle cx="3" cy="3" r="1.25" fill="var(--sheet)" />
        </pattern>
        <pattern id="pattern-stipple" width="6" height="6" patternUnits="userSpaceOnUse">
          <circle cx="1.5" cy="1.5" r="0.9" fill="#12191B" opacity="0.5" />
          <circle cx="4.5" cy="4.5" r="0.9" fill="#12191B" opacity="0.5" />
        </pattern>
        <pattern id="pattern-cut" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path d="M3.5 0v7" stroke="var(--ink)" strokeWidth="1.1" opacity="0.55" />
        </pattern>
        <linearGradient id="steel" x1="0" x2="1">
          <stop offset="0" stopColor="var(--steel-dark)" />
          <stop offset="0.5" stopColor="var(--steel-light)" />
          <stop offset="1" stopColor="var(--steel-dark)" />
        </linearGradient>
      </defs>
    </svg>
  );
}
