package org.kornspur.api.http;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Marks a resource that reads its query string itself, or a page whose script does. The parameters
 * named here are accepted besides the declared ones; without a name any parameter is.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.TYPE, ElementType.METHOD})
public @interface ReadsQueryItself {
  String[] value() default {};
}
