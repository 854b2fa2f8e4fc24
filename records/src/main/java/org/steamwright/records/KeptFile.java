package org.steamwright.records;

import org.steamwright.records.proof.Hash;

/**
 * A file as it came, kept under its content.
 *
 * @param sha256 of the bytes
 * @param size bytes
 */
public record KeptFile(Hash sha256, long size) {}
