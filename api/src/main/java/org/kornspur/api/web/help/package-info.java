/**
 * The manual: Markdown files of the program, one for each topic and language, rendered and searched
 * here; and what each rulebook asks for, read from the rulebooks in force.
 */
package org.kornspur.api.web.help;
