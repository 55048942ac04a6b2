/** The page of plans of the years ahead. */
package org.kornspur.api.web.plan;
