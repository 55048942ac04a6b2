package org.kornspur.processors.stream;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.kornspur.ingest.contract.Subject;

/**
 * Records of the processors as bytes, without any name: of a record the number of its components
 * and each of them in order, of a sealed interface the number of the kind before it. A text that
 * comes again is written once.
 *
 * <p>So a record may gain components behind those that it has, and an interface kinds behind its
 * own; nothing may be moved or taken away. {@code CompactFormTest} holds the order of all. What an
 * earlier release left is read with the further components absent.
 */
final class CompactForm {
  /** Neither Smile nor JSON begins with it. */
  static final byte FIRST_BYTE = 1;

  /** Statements lie within statements; nobody wrote any so deep. */
  private static final int DEEPEST = 200;

  private static final Map<Type, CompactPart> PARTS = new ConcurrentHashMap<>();

  private CompactForm() {}

  /**
   * @throws IllegalArgumentException if some part of the value is missing
   */
  static byte[] write(Object value, Class<?> type) {
    CompactOutput out = new CompactOutput();
    out.put(FIRST_BYTE);
    of(type).write(value, out);
    return out.bytes();
  }

  /**
   * @throws IllegalArgumentException if the bytes are no such value
   */
  static <T> T read(byte[] bytes, Class<T> type) {
    try {
      CompactInput in = new CompactInput(bytes, 1, DEEPEST);
      T value = type.cast(of(type).read(in));
      in.requireEnd();
      return value;
    } catch (IndexOutOfBoundsException | NullPointerException cutOff) {
      throw new IllegalArgumentException("No " + type.getSimpleName(), cutOff);
    }
  }

  private static CompactPart of(Type type) {
    CompactPart known = PARTS.get(type);
    if (known == null) {
      known = make(type);
      PARTS.put(type, known);
    }
    return known;
  }

  private static CompactPart make(Type type) {
    if (type instanceof ParameterizedType generic) {
      Type[] of = generic.getActualTypeArguments();
      if (generic.getRawType() == Optional.class) {
        return new Maybe(new Later(of[0]));
      } else if (generic.getRawType() == List.class) {
        return new Several(new Later(of[0]));
      } else if (generic.getRawType() == SortedMap.class) {
        return new ByKey(new Later(of[0]), new Later(of[1]));
      }
    } else if (type instanceof Class<?> named) {
      return make(named);
    }
    throw new IllegalArgumentException("No compact form of " + type.getTypeName());
  }

  private static CompactPart make(Class<?> type) {
    if (type == String.class) {
      return part((value, out) -> out.text((String) value), CompactInput::text);
    } else if (type == Subject.class) {
      return part((value, out) -> out.text(value.toString()), in -> Subject.parse(in.text()));
    } else if (type == int.class || type == Integer.class) {
      return part((value, out) -> out.number((Integer) value), in -> Math.toIntExact(in.number()));
    } else if (type == long.class || type == Long.class) {
      return part((value, out) -> out.number((Long) value), CompactInput::number);
    } else if (type == double.class || type == Double.class) {
      return part((value, out) -> out.fraction((Double) value), CompactInput::fraction);
    } else if (type == boolean.class || type == Boolean.class) {
      return part((value, out) -> out.flag((Boolean) value), CompactInput::flag);
    } else if (type == LocalDate.class) {
      return part(
          (value, out) -> out.number(((LocalDate) value).toEpochDay()),
          in -> LocalDate.ofEpochDay(in.number()));
    } else if (type == Instant.class) {
      return part(
          (value, out) -> {
            out.number(((Instant) value).getEpochSecond());
            out.number(((Instant) value).getNano());
          },
          in -> Instant.ofEpochSecond(in.number(), in.number()));
    } else if (type.isEnum()) {
      return constants(type);
    } else if (type.isRecord()) {
      return new CompactRecord(type);
    } else if (type.isSealed()) {
      return new OneOf(type);
    }
    throw new IllegalArgumentException("No compact form of " + type.getName());
  }

  private static CompactPart part(
      BiConsumer<Object, CompactOutput> writing, Function<CompactInput, Object> reading) {
    return new CompactPart() {
      @Override
      public void write(Object value, CompactOutput out) {
        writing.accept(value, out);
      }

      @Override
      public Object read(CompactInput in) {
        return reading.apply(in);
      }
    };
  }

  private static CompactPart constants(Class<?> type) {
    Map<String, Object> byName = new TreeMap<>();
    for (Object constant : type.getEnumConstants()) {
      byName.put(((Enum<?>) constant).name(), constant);
    }
    return part(
        (value, out) -> out.text(((Enum<?>) value).name()),
        in -> {
          String name = in.text();
          Object constant = byName.get(name);
          if (constant == null) {
            throw new IllegalArgumentException("No " + type.getSimpleName() + ": " + name);
          }
          return constant;
        });
  }

  /** A part that is looked up when it is first used, because types hold each other. */
  static final class Later implements CompactPart {
    private final Type type;
    private CompactPart found;

    Later(Type type) {
      this.type = type;
    }

    @Override
    public void write(Object value, CompactOutput out) {
      part().write(value, out);
    }

    @Override
    public Object read(CompactInput in) {
      return part().read(in);
    }

    /** Looked up twice it is the same, so nothing guards it. */
    private CompactPart part() {
      if (found == null) {
        found = of(type);
      }
      return found;
    }
  }

  private record Maybe(CompactPart of) implements CompactPart {
    @Override
    public void write(Object value, CompactOutput out) {
      Optional<?> optional = (Optional<?>) value;
      out.flag(optional.isPresent());
      if (optional.isPresent()) {
        of.write(optional.get(), out);
      }
    }

    @Override
    public Object read(CompactInput in) {
      return in.flag() ? Optional.of(of.read(in)) : Optional.empty();
    }
  }

  private record Several(CompactPart each) implements CompactPart {
    @Override
    public void write(Object value, CompactOutput out) {
      List<?> list = (List<?>) value;
      out.number(list.size());
      list.forEach(one -> each.write(one, out));
    }

    @Override
    public Object read(CompactInput in) {
      int size = in.size();
      List<Object> list = new ArrayList<>(size);
      for (int i = 0; i < size; i++) {
        list.add(each.read(in));
      }
      return Collections.unmodifiableList(list);
    }
  }

  private record ByKey(CompactPart key, CompactPart of) implements CompactPart {
    @Override
    public void write(Object value, CompactOutput out) {
      Map<?, ?> map = (Map<?, ?>) value;
      out.number(map.size());
      map.forEach(
          (name, one) -> {
            key.write(name, out);
            of.write(one, out);
          });
    }

    @Override
    public Object read(CompactInput in) {
      int size = in.size();
      SortedMap<Object, Object> map = new TreeMap<>();
      for (int i = 0; i < size; i++) {
        Object name = key.read(in);
        map.put(name, of.read(in));
      }
      return map;
    }
  }

  private static final class OneOf implements CompactPart {
    private final List<Class<?>> kinds;

    OneOf(Class<?> type) {
      kinds = List.of(type.getPermittedSubclasses());
    }

    @Override
    public void write(Object value, CompactOutput out) {
      int kind = kinds.indexOf(value.getClass());
      out.number(kind);
      of(kinds.get(kind)).write(value, out);
    }

    @Override
    public Object read(CompactInput in) {
      return of(kinds.get(Math.toIntExact(in.number()))).read(in);
    }
  }
}
