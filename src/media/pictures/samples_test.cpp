#include "media/pictures/samples.h"

#include <lcms2.h>
#include <libdeflate.h>
#include <png.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>

namespace quoin::pictures::samples {
namespace {

/// Smooth, with some noise, the same everywhere.
std::uint32_t value(std::uint32_t x, std::uint32_t y, std::uint32_t c) {
  const std::uint32_t noise = (x * 2654435761U ^ y * 40503U ^ c * 97U) >> 7 & 31;
  return (x * 9 + y * 5 + c * 60 + noise) & 0xff;
}

struct Write {
  png_structp png = nullptr;
  png_infop info = nullptr;
  Bytes out;
};

void put_rows(Write& w, const PngWishes& wishes) {
  const int channels = png_get_channels(w.png, w.info);
  const std::size_t row_bytes = png_get_rowbytes(w.png, w.info);
  std::vector<std::vector<png_byte>> rows;
  for (int y = 0; y < wishes.height; ++y) {
    std::vector<png_byte> row(row_bytes);
    for (std::size_t i = 0; i < row_bytes; ++i) {
      const auto bytes_each = static_cast<std::size_t>(std::max(1, channels * wishes.bits / 8));
      const std::size_t x = i / bytes_each, c = wishes.colourless ? 0 : i % bytes_each;
      row[i] =
          static_cast<png_byte>(value(static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y),
                                      static_cast<std::uint32_t>(c)));
      const bool is_alpha =
          wishes.colour_type >= 4 &&
          i % bytes_each >= bytes_each - static_cast<std::size_t>(wishes.bits / 8);
      if (is_alpha && wishes.opaque) row[i] = 255;
    }
    rows.push_back(std::move(row));
  }
  std::vector<png_bytep> pointers;
  for (auto& row : rows) pointers.push_back(row.data());
  png_write_image(w.png, pointers.data());
}

void put_palette(Write& w, const PngWishes& wishes) {
  std::vector<png_color> colours;
  std::vector<png_byte> alphas;
  for (int i = 0; i < 1 << wishes.bits; ++i) {
    colours.push_back({png_byte(255 - i), png_byte(i * 7), png_byte(i * 31)});
    alphas.push_back(png_byte(i * 13));
  }
  png_set_PLTE(w.png, w.info, colours.data(), static_cast<int>(colours.size()));
  if (wishes.keyed) {
    png_set_tRNS(w.png, w.info, alphas.data(), static_cast<int>(alphas.size()), nullptr);
  }
}

/// The colour of pixel (1, 1) is the transparent one.
void put_key(Write& w, const PngWishes& wishes) {
  const auto sample = [&](std::uint32_t c) {
    if (wishes.bits == 16) return value(1, 1, 2 * c) << 8 | value(1, 1, 2 * c + 1);
    return value(1, 1, c) & ((1U << wishes.bits) - 1);
  };
  const png_color_16 key{0, png_uint_16(sample(0)), png_uint_16(sample(1)), png_uint_16(sample(2)),
                         png_uint_16(sample(0))};
  png_set_tRNS(w.png, w.info, nullptr, 0, &key);
}

struct Read {
  const Bytes* bytes;
  std::size_t at = 8;
};

}  // namespace

Bytes png(const PngWishes& wishes) {
  Write w;
  w.png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  w.info = png_create_info_struct(w.png);
  png_set_write_fn(
      w.png, &w.out,
      [](png_structp p, png_bytep data, png_size_t size) {
        static_cast<Bytes*>(png_get_io_ptr(p))->append(reinterpret_cast<char*>(data), size);
      },
      [](png_structp) {});
  png_set_filter(w.png, 0, PNG_ALL_FILTERS);
  png_set_IHDR(w.png, w.info, png_uint_32(wishes.width), png_uint_32(wishes.height), wishes.bits,
               wishes.colour_type, wishes.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (wishes.colour_type == PNG_COLOR_TYPE_PALETTE)
    put_palette(w, wishes);
  else if (wishes.keyed)
    put_key(w, wishes);
  if (!wishes.profile.empty()) {
    png_set_iCCP(w.png, w.info, "profile", 0,
                 reinterpret_cast<png_const_bytep>(wishes.profile.data()),
                 static_cast<png_uint_32>(wishes.profile.size()));
  }
  png_write_info(w.png, w.info);
  put_rows(w, wishes);
  png_write_end(w.png, nullptr);
  png_destroy_write_struct(&w.png, &w.info);
  return w.out;
}

std::vector<std::uint8_t> libpng_rgba(const Bytes& bytes) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0) return {};
  png_image_free(&image);
  png_structp reader = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(reader);
  Read at{&bytes, 0};
  png_set_read_fn(reader, &at, [](png_structp p, png_bytep to, png_size_t size) {
    auto& from = *static_cast<Read*>(png_get_io_ptr(p));
    std::memcpy(to, from.bytes->data() + from.at, size);
    from.at += size;
  });
  png_read_info(reader, info);
  png_set_scale_16(reader);
  png_set_expand(reader);
  png_set_gray_to_rgb(reader);
  png_set_add_alpha(reader, 255, PNG_FILLER_AFTER);
  png_set_interlace_handling(reader);
  png_read_update_info(reader, info);
  const std::size_t row_bytes = png_get_rowbytes(reader, info);
  const png_uint_32 height = png_get_image_height(reader, info);
  std::vector<std::uint8_t> rgba(row_bytes * height);
  std::vector<png_bytep> rows;
  for (std::size_t y = 0; y < height; ++y) rows.push_back(rgba.data() + y * row_bytes);
  png_read_image(reader, rows.data());
  png_destroy_read_struct(&reader, &info, nullptr);
  return rgba;
}

namespace {

void put_32(Bytes& out, std::uint32_t v) {
  for (int shift = 24; shift >= 0; shift -= 8) out += static_cast<char>(v >> shift & 0xff);
}
Bytes chunk(const std::string& name, const Bytes& body) {
  Bytes out;
  put_32(out, static_cast<std::uint32_t>(body.size()));
  const Bytes named = name + body;
  out += named;
  put_32(out, libdeflate_crc32(0, named.data(), named.size()));
  return out;
}

}  // namespace

Bytes with_chunk(const Bytes& png, const std::string& name, const Bytes& body) {
  const std::size_t at = png.find("IDAT") - 4;
  return png.substr(0, at) + chunk(name, body) + png.substr(at);
}

Bytes deflated_plainly(const Bytes& bytes) {
  libdeflate_compressor* compressor = libdeflate_alloc_compressor(6);
  Bytes out(libdeflate_zlib_compress_bound(compressor, bytes.size()), '\0');
  out.resize(
      libdeflate_zlib_compress(compressor, bytes.data(), bytes.size(), out.data(), out.size()));
  libdeflate_free_compressor(compressor);
  return out;
}

Bytes bare_png(std::uint32_t width, std::uint32_t height, int bits, int colour_type,
               const Bytes& data) {
  Bytes header;
  put_32(header, width);
  put_32(header, height);
  header += {static_cast<char>(bits), static_cast<char>(colour_type), 0, 0, 0};
  return "\x89PNG\r\n\x1a\n" + chunk("IHDR", header) + chunk("IDAT", data) + chunk("IEND", {});
}

namespace {

Bytes saved(cmsHPROFILE profile) {
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  // The time of creation, which is now, and the identity made from it, are of no interest here.
  std::fill_n(bytes.begin() + 24, 12, '\0');
  return bytes;
}

/// L*a*b* of four inks, 0..65535 each: paper minus what each ink takes away.
cmsInt32Number inks_to_lab(const cmsUInt16Number in[], cmsUInt16Number out[], void*) {
  const double c = in[0] / 65535.0, m = in[1] / 65535.0, y = in[2] / 65535.0, k = in[3] / 65535.0;
  const cmsCIELab lab{95 - 40 * c - 45 * m - 8 * y - 85 * k * (1 - 0.5 * (c + m) / 2),
                      -35 * c + 70 * m - 5 * y, -45 * c - 3 * m + 85 * y};
  const cmsCIELab inside{std::clamp(lab.L, 0.0, 100.0), lab.a * (1 - k), lab.b * (1 - k)};
  cmsFloat2LabEncoded(out, &inside);
  return 1;
}

}  // namespace

Bytes swapped_rgb_profile() {
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE primaries{{0.30, 0.60, 1}, {0.64, 0.33, 1}, {0.15, 0.06, 1}};
  cmsToneCurve* curve = cmsBuildGamma(nullptr, 2.2);
  cmsToneCurve* curves[3] = {curve, curve, curve};
  const Bytes bytes = saved(cmsCreateRGBProfile(&white, &primaries, curves));
  cmsFreeToneCurve(curve);
  return bytes;
}

Bytes linear_grey_profile() {
  const cmsCIExyY white{0.3457, 0.3585, 1};
  cmsToneCurve* curve = cmsBuildGamma(nullptr, 1.0);
  const Bytes bytes = saved(cmsCreateGrayProfile(&white, curve));
  cmsFreeToneCurve(curve);
  return bytes;
}

Bytes cmyk_profile() {
  cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
  cmsSetProfileVersion(profile, 4.3);
  cmsSetDeviceClass(profile, cmsSigOutputClass);
  cmsSetColorSpace(profile, cmsSigCmykData);
  cmsSetPCS(profile, cmsSigLabData);
  cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 4, 3);
  cmsStage* table = cmsStageAllocCLut16bit(nullptr, 7, 4, 3, nullptr);
  cmsStageSampleCLut16bit(table, inks_to_lab, nullptr, 0);
  cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 4, nullptr));
  cmsPipelineInsertStage(pipeline, cmsAT_END, table);
  cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
  for (const cmsTagSignature tag : {cmsSigAToB0Tag, cmsSigAToB1Tag}) {
    cmsWriteTag(profile, tag, pipeline);
  }
  const Bytes bytes = saved(profile);
  cmsPipelineFree(pipeline);
  return bytes;
}

std::uint32_t pixel(const Raster& raster, int x, int y) {
  return raster.pixels.at(static_cast<std::size_t>(y) * std::size_t(raster.width) +
                          static_cast<std::size_t>(x));
}

std::optional<Bytes> MemoryCache::get(const std::string& key) const {
  const auto found = kept.find(key);
  if (found == kept.end()) return std::nullopt;
  ++hits;
  return found->second;
}

void MemoryCache::put(const std::string& key, const Bytes& bytes) { kept[key] = bytes; }

}  // namespace quoin::pictures::samples
