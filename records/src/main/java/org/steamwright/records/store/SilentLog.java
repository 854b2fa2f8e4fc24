package org.steamwright.records.store;

import org.flywaydb.core.api.logging.Log;
import org.flywaydb.core.api.logging.LogCreator;

/** Takes what the migration library tells on its way; what goes wrong is thrown anyway. Made by that library by name. */
public final class SilentLog implements Log, LogCreator {

    @Override
    public Log createLogger(Class<?> owner) {
        return this;
    }

    @Override
    public void debug(String message) {}

    @Override
    public void info(String message) {}

    @Override
    public void warn(String message) {}

    @Override
    public void error(String message) {}

    @Override
    public void error(String message, Exception e) {}

    @Override
    public void notice(String message) {}

    @Override
    public boolean isDebugEnabled() {
        return false;
    }
}
