package org.kornspur.api.http;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Of a resource whose parameters have no fixed names, or of a page whose script reads some: these
 * names are known too; all are where none is named.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.TYPE, ElementType.METHOD})
public @interface ReadsQueryItself {
  String[] value() default {};
}
