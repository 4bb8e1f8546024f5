#include "formats/pdf/images.h"

#include <stdexcept>

namespace quoin::pdf {
namespace {

// A placeholder is some 40 bytes and a key; anything far larger is a real picture.
constexpr int largest_placeholder = 1024;

/// Hands the prepared bytes to the file as they are, without a copy in between.
class ImageBytes : public Object::StreamDataProvider {
 public:
  explicit ImageBytes(std::shared_ptr<const PreparedImage> image) : image_(std::move(image)) {}

  void provideStreamData(const QPDFObjGen&, Pipeline* to) override {
    const std::string_view data = image_->data.view();
    to->write(reinterpret_cast<const unsigned char*>(data.data()), data.size());
    to->finish();
  }

 private:
  std::shared_ptr<const PreparedImage> image_;
};

Object decode_parameters(const PreparedImage& image) {
  if (image.filter != PreparedImage::Filter::flate || image.png_predictor_colours == 0) {
    return Object::newNull();
  }
  Object parameters = Object::newDictionary();
  parameters.replaceKey("/Predictor", Object::newInteger(15));
  parameters.replaceKey("/Colors", Object::newInteger(image.png_predictor_colours));
  parameters.replaceKey("/BitsPerComponent", Object::newInteger(image.bits));
  parameters.replaceKey("/Columns", Object::newInteger(image.width));
  return parameters;
}

/// Whether there is a scan (ITU-T T.81, B.2.3): a placeholder has none.
bool shows_something(std::string_view jpeg) {
  return jpeg.find("\xff\xda") != std::string_view::npos;
}

Object inverted_decode() {
  Object decode = Object::newArray();
  for (int ink = 0; ink < 4; ++ink) {
    decode.appendItem(Object::newInteger(1));
    decode.appendItem(Object::newInteger(0));
  }
  return decode;
}

}  // namespace

std::optional<std::string> first_comment(std::string_view jpeg) {
  using namespace std::string_view_literals;
  if (jpeg.size() < 6 || jpeg.substr(0, 4) != "\xff\xd8\xff\xfe"sv) return std::nullopt;
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(jpeg[at]); };
  const std::size_t length = byte(4) * 256u + byte(5);
  if (length < 2 || 4 + length > jpeg.size()) return std::nullopt;
  return std::string(jpeg.substr(6, length - 2));
}

Object Images::embed(const std::shared_ptr<const PreparedImage>& image) {
  Object stream = file_.newStream();
  const bool is_jpeg = image->filter == PreparedImage::Filter::dct;
  stream.replaceStreamData(std::make_shared<ImageBytes>(image),
                           name(is_jpeg ? "DCTDecode" : "FlateDecode"), decode_parameters(*image));
  Object facts = stream.getDict();
  facts.replaceKey("/Type", name("XObject"));
  facts.replaceKey("/Subtype", name("Image"));
  facts.replaceKey("/Width", Object::newInteger(image->width));
  facts.replaceKey("/Height", Object::newInteger(image->height));
  facts.replaceKey("/BitsPerComponent", Object::newInteger(image->bits));
  facts.replaceKey("/ColorSpace", spaces_.of(*image));
  facts.replaceKey("/Interpolate", Object::newBool(true));  // as previews show it
  if (image->inverted) facts.replaceKey("/Decode", inverted_decode());
  if (image->soft_mask) facts.replaceKey("/SMask", embed(image->soft_mask));
  return stream;
}

std::shared_ptr<const PreparedImage> Images::prepare(const std::string& key,
                                                     const PageRecorder::Recording& recording) {
  if (const auto made = recording.made.find(key); made != recording.made.end()) {
    return made->second;
  }
  const auto picture = recording.pictures.find(key);
  if (picture == recording.pictures.end()) return nullptr;
  Result<std::shared_ptr<const PreparedImage>> image = shelf_.prepared(picture->second);
  return std::move(image).or_report(found_).value_or(nullptr);
}

std::optional<Object> Images::instead_of(Object stream, const PageRecorder::Recording& recording) {
  Object facts = stream.getDict();
  if (facts.getKey("/Filter").unparse() != "/DCTDecode") return std::nullopt;
  Object length = facts.getKey("/Length");  // a stream copied from another file has none yet
  if (length.isInteger() && length.getIntValue() > largest_placeholder) return std::nullopt;
  const std::shared_ptr<Buffer> raw = stream.getRawStreamData();
  const std::string_view jpeg(reinterpret_cast<const char*>(raw->getBuffer()), raw->getSize());
  const std::optional<std::string> key = first_comment(jpeg);
  if (!key) return std::nullopt;
  if (const auto known = embedded_.find(*key); known != embedded_.end()) return known->second;
  if (!recording.made.contains(*key) && !recording.pictures.contains(*key)) {
    if (shows_something(jpeg)) return std::nullopt;
    throw std::logic_error("a recording shows a picture that it does not name: " + *key);
  }
  const std::shared_ptr<const PreparedImage> image = prepare(*key, recording);
  const Object object = image ? embed(image) : Object::newNull();
  embedded_.emplace(*key, object);
  return object;
}

}  // namespace quoin::pdf
