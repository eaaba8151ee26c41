// In which unit the reader wants temperatures. The board's numbers are °C alone; its sentences come in either.

const KEY = 'gylewarden.scale';
let fahrenheit = remembered() === 'F';

export const isFahrenheit = () => fahrenheit;
export const unit = () => (fahrenheit ? '°F' : '°C');

export function choose(letter) {
    fahrenheit = letter === 'F';
    try {
        localStorage.setItem(KEY, letter);
    } catch {
        // A browser that keeps nothing shows the choice until the page is closed.
    }
}

export const degrees = celsius => (fahrenheit ? celsius * 1.8 + 32 : celsius);
export const degreesOfDifference = kelvin => (fahrenheit ? kelvin * 1.8 : kelvin);

/** As 20.1 °C, with a space that does not break. */
export const temperature = celsius => `${digits(degrees(celsius))}\u00a0${unit()}`;
export const difference = kelvin => `${digits(Math.abs(degreesOfDifference(kelvin)))}\u00a0${unit()}`;

export function digits(number) {
    const text = number.toFixed(1);
    return (text === '-0.0' ? '0.0' : text).replace('-', '−');
}

/** For an input: at most two decimals, so that what was typed comes back as it was typed. */
export const editable = celsius => `${plain(degrees(celsius))} ${unit()}`;
export const editableDifference = kelvin => `${plain(degreesOfDifference(kelvin))} ${unit()}`;

function plain(number) {
    const rounded = Math.round(number * 100) / 100;
    return Number.isInteger(rounded * 10) ? rounded.toFixed(1) : String(rounded);
}

function remembered() {
    try {
        return localStorage.getItem(KEY);
    } catch {
        return null;
    }
}
