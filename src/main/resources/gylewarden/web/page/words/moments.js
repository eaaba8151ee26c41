// Moments and spans in words, in the reader's time zone. "Now" is always the board's, never this device's.

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });
const clockWithSeconds = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', second: '2-digit' });
const weekday = new Intl.DateTimeFormat('en-GB', { weekday: 'short' });
const date = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' });
const year = new Intl.DateTimeFormat('en-GB', { year: 'numeric' });

export const timeOfDay = at => clock.format(new Date(at));
export const timeWithSeconds = at => clockWithSeconds.format(new Date(at));
export const dayName = at => weekday.format(new Date(at));
export const dayOfMonth = at => date.format(new Date(at));

/** As "Tue 7 Oct, 21:42". */
export const dayAndTime = at => `${dayName(at)} ${dayOfMonth(at)}, ${timeOfDay(at)}`;
export const dayTimeAndYear = at => `${dayName(at)} ${dayOfMonth(at)} ${year.format(new Date(at))}, ${timeOfDay(at)}`;

/** As short as it can be without doubt: "21:42" today, "tomorrow 06:20", else with the date. */
export function momentSeenFrom(at, now) {
    const days = daysBetween(now, at);
    if (days === 0) return timeOfDay(at);
    if (days === 1) return `tomorrow ${timeOfDay(at)}`;
    if (days === -1) return `yesterday ${timeOfDay(at)}`;
    return dayAndTime(at);
}

/** Which day of a batch `now` is: the day of pitching is day 1. */
export const dayOfBatch = (pitchedAt, now) => daysBetween(pitchedAt, now) + 1;

/** The two largest units, as "2 d 4 h"; the same words as the board's own. */
export function span(seconds) {
    const whole = Math.max(0, Math.round(seconds));
    if (whole < 60) return `${whole} s`;
    if (whole < 3600) return pair(Math.floor(whole / 60), 'min', whole % 60, 's');
    const minutes = Math.round(whole / 60);
    if (minutes < 24 * 60) return pair(Math.floor(minutes / 60), 'h', minutes % 60, 'min');
    const hours = Math.round(whole / 3600);
    return pair(Math.floor(hours / 24), 'd', hours % 24, 'h');
}

/** For an input: exact, however many units that takes. */
export function editableSpan(seconds) {
    const days = Math.floor(seconds / 86400);
    const hours = Math.floor((seconds % 86400) / 3600);
    const minutes = Math.round((seconds % 3600) / 60);
    const parts = [[days, 'd'], [hours, 'h'], [minutes, 'min']].filter(([count]) => count > 0);
    return parts.map(([count, name]) => `${count} ${name}`).join(' ') || '0 min';
}

function daysBetween(from, to) {
    const midnight = at => new Date(at).setHours(0, 0, 0, 0);
    return Math.round((midnight(to) - midnight(from)) / 86400000);
}

const pair = (large, largeName, small, smallName) =>
    `${large} ${largeName}${small === 0 ? '' : ` ${small} ${smallName}`}`;
