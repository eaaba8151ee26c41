/**
 * Tests of the real jar as a process of its own: signals, a killed daemon, a hung bus, a relay that can't be written, a full
 * disk. What is right inside one process is tested beside its package. Start at {@link gylewarden.process.FakeBoard}, the
 * fabricated board on which every daemon here runs.
 */
package gylewarden.process;
