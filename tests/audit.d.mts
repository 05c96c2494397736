/** Whether the registry's answer to an audit passes, and what to say of it. */
export function judgeAudit(answer: string): readonly [boolean, string];
