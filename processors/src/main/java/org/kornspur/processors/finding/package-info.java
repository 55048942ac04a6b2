/**
 * What the judging says of a crop or lot, as data: findings, what is to be brought, what to do,
 * limits and where they stand. No sentence is made here.
 */
package org.kornspur.processors.finding;
