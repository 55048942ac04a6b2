/**
 * A form for each type of fact, made from the contract: to record, to correct, to take back, and to
 * mend what was refused.
 */
package org.kornspur.api.web.record;
