package org.kornspur.processors.stream;

import java.lang.invoke.MethodHandle;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.MethodType;
import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Optional;

/**
 * A record in a {@link CompactForm}: the number of its components and each in its order. Those that
 * were not written are absent: empty, false, 0, or what the record itself makes of null.
 */
final class CompactRecord implements CompactPart {
  private final String name;
  private final RecordComponent[] components;
  private final CompactPart[] parts;
  private final MethodHandle[] accessors;
  private final MethodHandle constructor;

  CompactRecord(Class<?> type) {
    name = type.getSimpleName();
    components = type.getRecordComponents();
    parts =
        Arrays.stream(components)
            .map(component -> new CompactForm.Later(component.getGenericType()))
            .toArray(CompactPart[]::new);
    accessors = new MethodHandle[components.length];
    try {
      MethodHandles.Lookup lookup = MethodHandles.privateLookupIn(type, MethodHandles.lookup());
      for (int i = 0; i < components.length; i++) {
        Method accessor = components[i].getAccessor();
        accessors[i] =
            lookup.unreflect(accessor).asType(MethodType.methodType(Object.class, Object.class));
      }
      Class<?>[] types =
          Arrays.stream(components).map(RecordComponent::getType).toArray(Class[]::new);
      constructor =
          lookup
              .findConstructor(type, MethodType.methodType(void.class, types))
              .asSpreader(Object[].class, types.length)
              .asType(MethodType.methodType(Object.class, Object[].class));
    } catch (ReflectiveOperationException closed) {
      throw new IllegalArgumentException("No compact form of " + type.getName(), closed);
    }
  }

  @Override
  public void write(Object value, CompactOutput out) {
    out.number(components.length);
    for (int i = 0; i < components.length; i++) {
      Object part = get(value, accessors[i]);
      if (part == null) {
        throw new IllegalArgumentException("A " + name + " without " + components[i].getName());
      }
      parts[i].write(part, out);
    }
  }

  @Override
  public Object read(CompactInput in) {
    in.deeper();
    int written = in.size();
    if (written > components.length) {
      throw new IllegalArgumentException(
          "A %s of %s parts; this version knows %s".formatted(name, written, components.length));
    }
    Object[] values = new Object[components.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = i < written ? parts[i].read(in) : absent(components[i].getType());
    }
    in.up();
    return make(values);
  }

  private static Object absent(Class<?> type) {
    if (type == Optional.class) {
      return Optional.empty();
    } else if (type == boolean.class) {
      return false;
    }
    return type.isPrimitive() ? 0 : null;
  }

  private static Object get(Object value, MethodHandle accessor) {
    try {
      return (Object) accessor.invokeExact(value);
    } catch (Throwable fault) {
      throw unchecked(fault);
    }
  }

  private Object make(Object[] values) {
    try {
      return (Object) constructor.invokeExact(values);
    } catch (Throwable fault) {
      throw unchecked(fault);
    }
  }

  private static RuntimeException unchecked(Throwable fault) {
    if (fault instanceof Error error) {
      throw error;
    }
    return fault instanceof RuntimeException known ? known : new IllegalStateException(fault);
  }
}
