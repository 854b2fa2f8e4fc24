package org.steamwright.desk.web;

/** How a route is treated besides who may use it. */
public enum Treatment {

    /** As most pages are. */
    USUAL,

    /** Dear work, such as a document: only some at the same time, the others wait. */
    DEAR,

    /** Answered without looking at a session or beginning one, because its cookie can't be sent along from elsewhere. */
    WITHOUT_SESSION
}
