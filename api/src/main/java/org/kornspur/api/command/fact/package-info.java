/** How facts come in over HTTP: one or many, each with an answer of its own. */
package org.kornspur.api.command.fact;
