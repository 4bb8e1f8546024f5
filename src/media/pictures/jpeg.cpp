#include "media/pictures/jpeg.h"

#include <fmt/format.h>

#include <csetjmp>
#include <cstddef>
#include <cstdio>

// In this order: each needs the one before.
#include <jpeglib.h>

#include <jerror.h>

#include "media/pictures/exif.h"
#include "media/pictures/icc.h"
#include "media/pictures/jpeg_parts.h"

namespace quoin::pictures {
namespace {

constexpr long most_decoder_memory = 1L << 30;  // bytes; a progressive JPEG keeps all coefficients

/// libjpeg's way out of an error, and its complaints.
struct Errors {
  jpeg_error_mgr manager;
  std::jmp_buf escape;
  bool lost_pixels = false;
  char words[JMSG_LENGTH_MAX] = {};

  static Errors& of(j_common_ptr info) { return *reinterpret_cast<Errors*>(info->err); }

  [[noreturn]] static void leave(j_common_ptr info) {
    if (!of(info).lost_pixels) (*info->err->format_message)(info, of(info).words);
    std::longjmp(of(info).escape, 1);
  }

  /// Warnings after which pixels are guessed; bytes between two parts, for one, are harmless.
  static bool costs_pixels(int code) {
    return code == JWRN_HIT_MARKER || code == JWRN_HUFF_BAD_CODE || code == JWRN_JPEG_EOF ||
           code == JWRN_MUST_RESYNC || code == JWRN_ARITH_BAD_CODE ||
           code == JWRN_BOGUS_PROGRESSION || code == JWRN_NOT_SEQUENTIAL;
  }

  static void note(j_common_ptr info, int level) {
    if (level < 0 && costs_pixels(info->err->msg_code) && !of(info).lost_pixels) {
      of(info).lost_pixels = true;
      (*info->err->format_message)(info, of(info).words);
    }
  }
};
static_assert(offsetof(Errors, manager) == 0);

/// One libjpeg decompressor over a file in memory.
class Decoder {
 public:
  explicit Decoder(std::string_view bytes) {
    info_.err = jpeg_std_error(&errors_.manager);
    errors_.manager.error_exit = Errors::leave;
    errors_.manager.emit_message = Errors::note;
    errors_.manager.output_message = [](j_common_ptr) {};
    is_sound_ = guarded([&] {
      jpeg_create_decompress(&info_);
      info_.mem->max_memory_to_use = most_decoder_memory;
      jpeg_mem_src(&info_, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
      jpeg_read_header(&info_, TRUE);
    });
  }
  ~Decoder() { jpeg_destroy_decompress(&info_); }
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;

  /// Runs `work`, which must own nothing, and tells whether it came to its end.
  template <typename Work>
  bool guarded(const Work& work) {
    if (setjmp(errors_.escape) != 0) return false;
    work();
    return true;
  }

  void start(J_COLOR_SPACE to, unsigned eighths) {
    is_sound_ = is_sound_ && guarded([&] {
                  info_.out_color_space = to;
                  info_.scale_num = eighths;
                  info_.scale_denom = 8;
                  jpeg_start_decompress(&info_);
                });
  }
  void read_row(std::uint8_t* row) {
    is_sound_ = is_sound_ && guarded([&] { jpeg_read_scanlines(&info_, &row, 1); });
  }
  void finish() {
    is_sound_ = is_sound_ && guarded([&] { jpeg_finish_decompress(&info_); });
  }

  [[nodiscard]] bool is_sound() const { return is_sound_ && !errors_.lost_pixels; }
  [[nodiscard]] bool runs() const { return is_sound_; }
  [[nodiscard]] const char* complaint() const { return errors_.words; }
  [[nodiscard]] const jpeg_decompress_struct& info() const { return info_; }

 private:
  jpeg_decompress_struct info_{};
  Errors errors_{};
  bool is_sound_ = false;
};

J_COLOR_SPACE output_of(ColourModel model) {
  return model == ColourModel::grey  ? JCS_GRAYSCALE
         : model == ColourModel::rgb ? JCS_RGB
                                     : JCS_CMYK;
}

/// Counts in the picture's own rows, whole blocks of 16 of them, at whatever size it was decoded.
Diagnostic garbled(const SourceFile& file, const Decoder& decoder) {
  const jpeg_decompress_struct& info = decoder.info();
  const JDIMENSION done =
      info.output_height == 0 ? 0 : info.output_scanline * info.image_height / info.output_height;
  Diagnostic d = damaged(file, fmt::format("its pixels are garbled from about row {} of {} on",
                                           done / 16 * 16, info.image_height));
  return d.detail(fmt::format("the decoder says: {}", decoder.complaint()));
}

/// Decodes all rows at an eighth of the size and throws them away.
Outcome check_pixels(const SourceFile& file, const JpegParts& parts) {
  Decoder decoder(file.bytes);
  decoder.start(output_of(parts.model()), 1);
  if (!decoder.runs()) return garbled(file, decoder);
  std::vector<std::uint8_t> row(std::size_t{decoder.info().output_width} *
                                decoder.info().output_components);
  while (decoder.is_sound() && decoder.info().output_scanline < decoder.info().output_height) {
    decoder.read_row(row.data());
  }
  if (decoder.is_sound()) decoder.finish();
  if (!decoder.is_sound()) return garbled(file, decoder);
  return Done{};
}

/// Whether only the decoder's look at component names says that this is RGB and not YCbCr: PDF
/// readers differ there.
bool is_rgb_by_name_only(const SourceFile& file, const JpegParts& parts) {
  if (parts.components != 3 || parts.has_adobe) return false;
  const Decoder decoder(file.bytes);
  return decoder.runs() && decoder.info().jpeg_color_space == JCS_RGB;
}

}  // namespace

Result<FirstLook> look_at_jpeg(const SourceFile& file) {
  const Result<JpegParts> parts = read_jpeg_parts(file);
  if (!parts) return parts.why();
  const Decoder decoder(file.bytes);
  if (!decoder.runs()) return garbled(file, decoder);
  FirstLook look;
  PictureFacts& facts = look.facts;
  facts.format = PictureFormat::jpeg;
  facts.exif_orientation = exif_orientation(parts->exif);
  const bool sideways = turns_sideways(facts.exif_orientation);
  facts.width = sideways ? parts->height : parts->width;
  facts.height = sideways ? parts->width : parts->height;
  facts.model = parts->model();
  note_profile(fitting_profile(file, parts->joined_profile(), facts.model, look.remarks), facts);
  return look;
}

Result<Bitmap> decode_jpeg(const SourceFile& file) { return decode_jpeg(file, 8); }

Result<Bitmap> decode_jpeg(const SourceFile& file, unsigned eighths) {
  const Result<JpegParts> parts = read_jpeg_parts(file);
  if (!parts) return parts.why();
  Bitmap bitmap;
  bitmap.model = parts->model();
  Diagnostics said_when_opened;
  bitmap.profile = fitting_profile(file, parts->joined_profile(), bitmap.model, said_when_opened);
  Decoder decoder(file.bytes);
  decoder.start(output_of(bitmap.model), eighths);
  if (!decoder.runs()) return garbled(file, decoder);
  bitmap.width = static_cast<int>(decoder.info().output_width);
  bitmap.height = static_cast<int>(decoder.info().output_height);
  const std::size_t row_bytes =
      static_cast<std::size_t>(bitmap.width) * static_cast<std::size_t>(bitmap.channels());
  bitmap.samples.resize(row_bytes * static_cast<std::size_t>(bitmap.height));
  while (decoder.is_sound() && decoder.info().output_scanline < decoder.info().output_height) {
    decoder.read_row(bitmap.samples.data() + decoder.info().output_scanline * row_bytes);
  }
  if (decoder.is_sound()) decoder.finish();
  if (!decoder.is_sound()) return garbled(file, decoder);
  if (bitmap.model == ColourModel::cmyk && parts->has_adobe) {
    for (std::uint8_t& ink : bitmap.samples) ink = static_cast<std::uint8_t>(255 - ink);
  }
  return bitmap;
}

Result<std::optional<PreparedImage>> known_jpeg_as_stored(const SourceFile& file) {
  const Result<JpegParts> parts = read_jpeg_parts(file);
  if (!parts) return parts.why();
  if (!parts->is_usual_coding() || is_rgb_by_name_only(file, *parts)) {
    return std::optional<PreparedImage>();
  }
  PreparedImage image;
  image.width = parts->width;
  image.height = parts->height;
  image.model = parts->model();
  image.filter = PreparedImage::Filter::dct;
  image.inverted = parts->components == 4 && parts->has_adobe;
  image.data = file.shared();
  Diagnostics said_when_opened;
  image.profile = fitting_profile(file, parts->joined_profile(), image.model, said_when_opened);
  return std::optional(std::move(image));
}

Result<std::optional<PreparedImage>> jpeg_as_stored(const SourceFile& file) {
  const Result<JpegParts> parts = read_jpeg_parts(file);
  if (!parts) return parts.why();
  const Outcome whole = check_pixels(file, *parts);
  if (!whole) return whole.why();
  return known_jpeg_as_stored(file);
}

}  // namespace quoin::pictures
