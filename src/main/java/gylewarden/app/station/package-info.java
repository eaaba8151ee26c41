/**
 * What stands around the chambers, wired by hand: the record, the small files, the desks and the page. The same for `run` and
 * for the demo; no rule of control or brewing lives here. Start at {@link gylewarden.app.station.Station}.
 */
package gylewarden.app.station;
