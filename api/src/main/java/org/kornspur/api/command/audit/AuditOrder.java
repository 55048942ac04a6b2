package org.kornspur.api.command.audit;

import java.util.List;
import org.kornspur.api.security.Caller;
import org.kornspur.api.text.Language;

/**
 * What a person asked for in an audit pack.
 *
 * @param choice how the lots were chosen
 * @param among how many lots they were chosen among
 * @param lots ids of those that go into the pack
 * @param leftOut ids of those that were chosen and that the person left out by hand
 */
public record AuditOrder(
    Caller caller,
    Language language,
    LotChoice choice,
    int among,
    List<String> lots,
    List<String> leftOut) {}
