// Reads what people type. Each reader answers {value} or {mistake}, the mistake with an example that works.

import { isFahrenheit } from './scale.js';

const NUMBER = '([-−+]?\\d+(?:[.,]\\d+)?)';
const TEMPERATURE = new RegExp(`^${NUMBER}\\s*°?\\s*(c|f|celsius|fahrenheit)?$`, 'i');
const DIFFERENCE_OVER_TIME =
    new RegExp(`^${NUMBER}\\s*(°?\\s*c|°?\\s*f|k|°)?\\s*(?:/|per|an|a|each)\\s*(d|day|h|hour|hr)$`, 'i');
const SPAN_PART = new RegExp(`${NUMBER}\\s*(days?|d|hours?|hrs?|h|minutes?|mins?|min|m)(?![a-z])`, 'gi');
const ISO_SPAN = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?)?$/i;
const SECONDS_OF = { d: 86400, h: 3600, m: 60 };

/** A temperature in °C; a number without a unit is in the reader's. */
export function celsiusFrom(text) {
    const found = TEMPERATURE.exec(text.trim());
    if (!found) return { mistake: `${quoted(text)} is no temperature. Write 19.0 °C or 66 °F.` };
    const number = numberFrom(found[1]);
    const inFahrenheit = found[2] ? /^f/i.test(found[2]) : isFahrenheit();
    return { value: thousandths(inFahrenheit ? (number - 32) / 1.8 : number) };
}

/** A span in seconds. A number without a unit is refused: days and hours are too easily mistaken. */
export function secondsFrom(text) {
    const iso = secondsOfIso(text.trim());
    if (iso !== undefined) return { value: iso };
    let seconds = 0;
    const rest = text.replace(SPAN_PART, (whole, number, name) => {
        seconds += numberFrom(number) * SECONDS_OF[name[0].toLowerCase()];
        return '';
    });
    const understood = seconds > 0 && /^[\s,]*(and)?[\s,]*$/i.test(rest);
    if (understood) return { value: Math.round(seconds) };
    return { mistake: `${quoted(text)} is no time. Write 4 d, 36 h or 1 d 12 h.` };
}

/** A pace in kelvins an hour. */
export function kelvinPerHourFrom(text) {
    const found = DIFFERENCE_OVER_TIME.exec(text.trim());
    if (!found) return { mistake: `${quoted(text)} is no pace. Write 1.0 °C a day or 0.5 °C an hour.` };
    const number = Math.abs(numberFrom(found[1]));
    const inFahrenheit = found[2] && found[2] !== '°' ? /f$/i.test(found[2]) : isFahrenheit();
    const kelvin = inFahrenheit ? number / 1.8 : number;
    return { value: /^d/i.test(found[3]) ? kelvin / 24 : kelvin };
}

export function secondsOfIso(text) {
    const found = ISO_SPAN.exec(text);
    if (!found || /[PT]$/i.test(text)) return undefined;
    const [days, hours, minutes, seconds] = found.slice(1).map(part => Number(part ?? 0));
    return days * 86400 + hours * 3600 + minutes * 60 + seconds;
}

export function isoOfSeconds(seconds) {
    const days = Math.floor(seconds / 86400);
    const rest = seconds - days * 86400;
    const hours = Math.floor(rest / 3600);
    const minutes = Math.floor((rest % 3600) / 60);
    const left = Math.round(rest % 60);
    const time = `${hours ? hours + 'H' : ''}${minutes ? minutes + 'M' : ''}${left ? left + 'S' : ''}`;
    if (!days && !time) return 'PT0S';
    return `P${days ? days + 'D' : ''}${time ? 'T' + time : ''}`;
}

export const thousandths = number => Math.round(number * 1000) / 1000;

export const numberFrom = text => Number(text.replace(',', '.').replace('−', '-'));

const quoted = text => `“${text.trim()}”`;
