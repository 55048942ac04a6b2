package org.kornspur.api.security.visibility;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * The answer of this method repeats what the caller sent, or holds nothing of crops and lots, as
 * the manual and the pages on people. Nothing is taken out of it: a gap would tell that an id
 * exists.
 */
@Documented
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.METHOD)
public @interface SkipRedaction {}
