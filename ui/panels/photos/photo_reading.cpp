#include "ui/panels/photos/photo_reading.h"

#include "core/tasting/photo.h"
#include "core/tasting/photo_as_taken.h"
#include "ui/text/border.h"

#include <QBuffer>
#include <QCache>
#include <QColorSpace>
#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QImageWriter>
#include <QLocale>
#include <QMimeData>
#include <QUrl>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::PhotoError;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Photos", text);
}

// A file is read whole before anything of it is believed. Common practice, no source: cameras of 100
// megapixels write up to about 100 MB.
constexpr qint64 kMostFileBytes = 256LL << 20;
constexpr double kMostMegapixels = 120;
constexpr int kDecodeMegabytes = 640; // 120 megapixels of four bytes, and what the decoder needs beside them
constexpr int kJpegQuality = 88;

Sentence refusal(const QString& fact, const QString& name) {
    return {fact, say("%1 was not taken; everything else is as it was.").arg(name), {}};
}

Sentence refusal(PhotoError error, const QString& name) {
    switch (error) {
    case PhotoError::Empty:
        return refusal(say("The file is empty."), name);
    case PhotoError::NotAPhoto:
        return refusal(say("This is neither a JPEG nor a PNG picture."), name);
    case PhotoError::CutShort:
        return refusal(say("The picture ends before it is whole: it was copied only in part."), name);
    case PhotoError::TooManyBytes:
    case PhotoError::TooManyPixels:
    case PhotoError::CarriesMetadata:
        break;
    }
    return refusal(say("The picture could not be made small enough for the book."), name);
}

// Only what can be seen: texts and resolutions of the source are not written.
QImage plain(const QImage& image, bool keepAlpha) {
    QImage copy = image;
    if (copy.colorSpace().isValid() && copy.colorSpace() != QColorSpace(QColorSpace::SRgb))
        copy.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    copy = copy.convertToFormat(keepAlpha ? QImage::Format_ARGB32 : QImage::Format_RGB32);
    QImage bare(copy.constBits(), copy.width(), copy.height(), copy.bytesPerLine(), copy.format());
    bare = bare.copy(); // pixels alone
    return bare;
}

std::string written(const QImage& image, const char* format, int quality) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, format);
    writer.setQuality(quality);
    if (!writer.write(image)) return {};
    return bytes.toStdString();
}

QSize within(QSize size, int most) {
    if (std::max(size.width(), size.height()) > most) size.scale(most, most, Qt::KeepAspectRatio);
    return size.expandedTo({1, 1});
}

} // namespace

tl::expected<std::string, Sentence> photoFromImage(const QImage& image, const QString& name) {
    if (image.isNull()) return tl::unexpected(refusal(PhotoError::NotAPhoto, name));
    const auto size = within(image.size(), tasting::kMostPhotoPixels);
    const auto fitting =
        size == image.size() ? image : image.scaled(size, Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    std::string bytes;
    // What has see-through parts stays a PNG while that is not too large.
    if (fitting.hasAlphaChannel()) bytes = written(plain(fitting, true), "png", -1);
    if (bytes.empty() || bytes.size() > tasting::kMostPhotoBytes) {
        QImage opaque(fitting.size(), QImage::Format_RGB32);
        opaque = plain(fitting, false);
        bytes = written(opaque, "jpeg", kJpegQuality);
        if (bytes.size() > tasting::kMostPhotoBytes) bytes = written(opaque, "jpeg", 60);
    }
    if (const auto info = tasting::inspectPhoto(bytes); !info)
        return tl::unexpected(refusal(info.error(), name));
    return bytes;
}

tl::expected<std::string, Sentence> photoFromBytes(const QByteArray& bytes, const QString& name) {
    if (const auto problem =
            tasting::problemAsTaken({bytes.constData(), static_cast<std::size_t>(bytes.size())}))
        return tl::unexpected(refusal(*problem, name));
    QBuffer buffer;
    buffer.setData(bytes);
    buffer.open(QIODevice::ReadOnly);
    QImageReader::setAllocationLimit(kDecodeMegabytes);
    QImageReader reader(&buffer);
    reader.setDecideFormatFromContent(true); // a PNG named .jpg is a PNG
    reader.setAutoTransform(true);
    const auto size = reader.size();
    const double megapixels = double(size.width()) * size.height() / 1e6;
    if (megapixels > kMostMegapixels)
        return tl::unexpected(refusal(
            say("The picture has %1 megapixels; at most %2 can be made small.")
                .arg(QLocale().toString(megapixels, 'f', 0), QLocale().toString(kMostMegapixels, 'f', 0)),
            name));
    // Asked for small, a JPEG is never unpacked at its full size.
    if (size.isValid()) reader.setScaledSize(within(size, tasting::kMostPhotoPixels));
    const auto image = reader.read();
    if (image.isNull())
        return tl::unexpected(refusal(say("The picture is damaged and cannot be drawn."), name));
    return photoFromImage(image, name);
}

tl::expected<std::string, Sentence> photoFromFile(const QString& path) {
    const auto name = QFileInfo(path).fileName();
    QFile file(path);
    if (!QFileInfo(path).isFile() || !file.open(QIODevice::ReadOnly))
        return tl::unexpected(refusal(say("The file cannot be read."), name));
    if (file.size() > kMostFileBytes)
        return tl::unexpected(refusal(say("The file is larger than 256 MB."), name));
    return photoFromBytes(file.readAll(), name);
}

PhotosRead photosFromFiles(const QStringList& paths) {
    PhotosRead read;
    for (const QString& path : paths) {
        auto photo = photoFromFile(path);
        if (photo)
            read.photos.push_back(*std::move(photo));
        else
            read.refused.push_back(std::move(photo.error()));
    }
    return read;
}

bool holdsPhotos(const QMimeData& data) {
    const auto urls = data.urls();
    return data.hasImage() ||
           std::any_of(urls.begin(), urls.end(), [](const QUrl& url) { return url.isLocalFile(); });
}

PhotosRead photosFrom(const QMimeData& data) {
    QStringList files;
    for (const auto& url : data.urls())
        if (url.isLocalFile()) files << url.toLocalFile();
    PhotosRead read = photosFromFiles(files);
    if (!files.isEmpty() || !data.hasImage()) return read;
    auto photo = photoFromImage(qvariant_cast<QImage>(data.imageData()), say("The picture on the clipboard"));
    if (photo)
        read.photos.push_back(*std::move(photo));
    else
        read.refused.push_back(std::move(photo.error()));
    return read;
}

QImage photoImage(const std::string& bytes, int most) {
    auto data = QByteArray::fromRawData(bytes.data(), static_cast<qsizetype>(bytes.size()));
    QBuffer buffer(&data);
    buffer.open(QIODevice::ReadOnly);
    QImageReader reader(&buffer);
    reader.setDecideFormatFromContent(true);
    reader.setScaledSize(within(reader.size(), most));
    return reader.read();
}

QImage thumbnail(const std::string& hash, const std::string& bytes, int most) {
    static QCache<QString, QImage> known(400);
    const QString key = fromCore(hash) + u'@' + QString::number(most);
    if (const auto* image = known.object(key)) return *image;
    auto image = photoImage(bytes, most);
    if (!image.isNull()) known.insert(key, new QImage(image));
    return image;
}

} // namespace stillroom::ui
