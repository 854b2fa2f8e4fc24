package org.steamwright.desk.web;

/** What a request wants: to look, or to change something. */
public enum Method {
    GET,
    POST
}
