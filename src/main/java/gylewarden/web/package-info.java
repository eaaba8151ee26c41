/**
 * The HTTP API and the page. No rule of brewing or control lives here, nothing is switched, and no type of the domain is
 * mapped onto JSON: each answer is written field by field. Start at {@link gylewarden.web.Server} and docs/api.md.
 */
package gylewarden.web;
