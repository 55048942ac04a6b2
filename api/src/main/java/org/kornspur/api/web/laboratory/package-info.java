/**
 * What people of a seed-testing station see of the samples that are assigned to their laboratory,
 * and the forms by which they record results and correct their own.
 */
package org.kornspur.api.web.laboratory;
