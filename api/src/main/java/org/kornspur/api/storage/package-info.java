/** Folders and files of this machine that only the user who runs the program may read. */
package org.kornspur.api.storage;
