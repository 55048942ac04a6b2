/** What an administrator does to the people who may log in. */
package org.kornspur.api.command.people;
