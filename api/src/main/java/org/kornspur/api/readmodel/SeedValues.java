package org.kornspur.api.readmodel;

import java.util.List;

/**
 * Values that some crop or lot has, and that lists can therefore be narrowed by.
 *
 * @param cropYears latest first
 * @param hybridIds by id
 * @param seedIds lines and hybrids that seed is, by id
 * @param holders enterprises, by id
 */
public record SeedValues(
    List<Integer> cropYears, List<String> hybridIds, List<String> seedIds, List<String> holders) {}
