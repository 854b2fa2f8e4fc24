package org.steamwright.desk.accounts;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Sessions of this desk that are open, so that users can see and end their own one by one. Kept in memory like the sessions
 * themselves: with the program they end together. A session is named here by a number of its own, never by what its cookie
 * holds.
 *
 * <p>May be used by several threads.
 */
final class OpenSessions {

    /** A session as its user sees it. */
    static final class Entry {
        private final String id = UUID.randomUUID().toString();
        private final String account;
        private final Device device;
        private final String address;
        private final Instant begun;
        private volatile Instant lastUsed;
        private volatile boolean isEnded;

        private Entry(String account, Device device, String address, Instant begun) {
            this.account = account;
            this.device = device;
            this.address = address;
            this.begun = begun;
            this.lastUsed = begun;
        }

        /** Name of the entry, good for nothing but ending it. */
        String id() {
            return id;
        }

        Device device() {
            return device;
        }

        /** Where the log-in came from. */
        String address() {
            return address;
        }

        Instant begun() {
            return begun;
        }

        Instant lastUsed() {
            return lastUsed;
        }

        boolean isEnded() {
            return isEnded;
        }

        void used(Instant at) {
            lastUsed = at;
        }
    }

    private final Map<String, Entry> entries = new ConcurrentHashMap<>();

    /** A session begins. Those that nobody used for long are forgotten at the same time. */
    Entry begin(String account, String userAgent, String address, Instant now) {
        entries.values().removeIf(entry -> entry.isEnded || !now.isBefore(entry.lastUsed.plus(LogIns.IDLE)));
        Entry entry = new Entry(account, Device.of(userAgent), address, now);
        entries.put(entry.id, entry);
        return entry;
    }

    /** Ends a session. */
    void end(Entry entry) {
        entry.isEnded = true;
        entries.remove(entry.id);
    }

    /** Sessions of an account, the one used last first; those that have ended by time are still among them. */
    List<Entry> of(String account) {
        List<Entry> own = new ArrayList<>(entries.values());
        own.removeIf(entry -> !entry.account.equals(account));
        own.sort(Comparator.comparing(Entry::lastUsed).reversed().thenComparing(Entry::id));
        return own;
    }

    /** Ends one session of an account; false if it has none of that name. */
    boolean end(String account, String id) {
        List<Entry> named =
                of(account).stream().filter(entry -> entry.id.equals(id)).toList();
        named.forEach(this::end);
        return !named.isEmpty();
    }

    /** Ends all sessions of an account but one. */
    void endOthers(String account, Entry kept) {
        of(account).stream().filter(entry -> entry != kept).forEach(this::end);
    }
}
