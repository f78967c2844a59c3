#pragma once

#include "ui/text/words.h"

#include <tl/expected.hpp>

#include <QImage>

#include <string>
#include <vector>

class QMimeData;

namespace stillroom::ui {

// Pictures from outside made into what the book takes (core/tasting/photo.h): upright, at most 3,000 px,
// without a word of where and with what they were taken. The error is a sentence for the person.
tl::expected<std::string, Sentence> photoFromBytes(const QByteArray& bytes, const QString& name);
tl::expected<std::string, Sentence> photoFromFile(const QString& path);
tl::expected<std::string, Sentence> photoFromImage(const QImage& image, const QString& name);

// What was dropped or stands on the clipboard: files, or one picture.
bool holdsPhotos(const QMimeData& data);
struct PhotosRead {
    std::vector<std::string> photos;
    std::vector<Sentence> refused; // one for each that could not be read
};
PhotosRead photosFrom(const QMimeData& data);
PhotosRead photosFromFiles(const QStringList& paths);

// A photo of the book, no wider and no higher than this; drawn from a cache by its hash. Null: damaged.
QImage thumbnail(const std::string& hash, const std::string& bytes, int most);
// One that is not in the book yet.
QImage photoImage(const std::string& bytes, int most);

} // namespace stillroom::ui
