#pragma once
#include <glib-object.h>
#include <pango/pango.h>

#include <memory>

namespace quoin {

/// Closes a C library's object with its own function.
template <auto close>
struct Closer {
  template <typename T>
  void operator()(T* object) const {
    close(object);
  }
};

template <typename T>
using ObjectPtr = std::unique_ptr<T, Closer<g_object_unref>>;
using GText = std::unique_ptr<char, Closer<g_free>>;
using FontDescriptionPtr =
    std::unique_ptr<PangoFontDescription, Closer<pango_font_description_free>>;
using AttributesPtr = std::unique_ptr<PangoAttrList, Closer<pango_attr_list_unref>>;

}  // namespace quoin
