/**
 * What needs a person, and the life of it: raised, seen, quiet for a while, over. Pure: the findings of a moment go in, the next
 * state and what has changed come out; it sends nothing, keeps nothing and reads no clock. Start at
 * {@link gylewarden.alarm.Alarm}.
 */
package gylewarden.alarm;
