// Speaks with the board. Every answer is data, or a Refusal that says in words what was wrong.

import { isFahrenheit } from '../words/scale.js';

const PATIENCE_IN_MS = 10_000;

/** The board said no, or said nothing. */
export class Refusal extends Error {
    /**
     * @param status of HTTP, or 0 if no answer came
     * @param errors what is wrong, each {field, message}
     */
    constructor(status, words, errors = [], answer = {}) {
        super(words);
        this.status = status;
        this.errors = errors;
        this.answer = answer;
    }

    get isSilence() {
        return this.status === 0;
    }
}

export async function get(path, signal) {
    return (await ask('GET', path, { signal })).data;
}

export const getWithTag = path => ask('GET', path, {});
export const post = (path, body, signal) => ask('POST', path, { body, signal });
export const put = (path, body, tag, signal) => ask('PUT', path, { body, tag, signal });
export const patch = (path, body) => ask('PATCH', path, { body });
export const remove = path => ask('DELETE', path, {});

async function ask(method, path, { body, tag, signal }) {
    const headers = { Accept: 'application/json' };
    if (body !== undefined) headers['Content-Type'] = 'application/json';
    if (tag) headers['If-Match'] = tag;
    const answer = await heard(inReadersUnits(path), {
        method,
        headers,
        body: body === undefined ? undefined : JSON.stringify(body),
        signal: signal ?? AbortSignal.timeout(PATIENCE_IN_MS),
        cache: 'no-store',
    });
    const data = await dataOf(answer);
    if (!answer.ok) throw refusal(answer.status, data ?? {});
    return { data, tag: answer.headers.get('ETag'), status: answer.status };
}

async function heard(path, request) {
    try {
        return await fetch(path, request);
    } catch (failure) {
        if (failure.name === 'AbortError') throw failure;
        const isQuestion = request.method === 'GET';
        throw new Refusal(0, isQuestion
            ? 'The board did not answer.'
            : 'The board did not answer. Whether it has heard is not known: look before you ask again.');
    }
}

async function dataOf(answer) {
    const text = await answer.text();
    const isJson = /json/.test(answer.headers.get('Content-Type') ?? '');
    return text && isJson ? JSON.parse(text) : undefined;
}

function refusal(status, problem) {
    const errors = problem.errors ?? [];
    const words = problem.detail ?? problem.title ?? `The board refused, with status ${status}.`;
    return new Refusal(status, words, errors, problem);
}

function inReadersUnits(path) {
    if (!isFahrenheit()) return path;
    return path + (path.includes('?') ? '&' : '?') + 'units=F';
}
