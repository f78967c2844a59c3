#include "core/tasting/photo.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/photos/photo_reading.h"
#include "ui/panels/photos/photo_strip.h"
#include "ui/panels/photos/photo_view.h"
#include "ui/panels/photos/photos_dialog.h"
#include "ui/panels/tasting/scale_entry.h"
#include "ui/panels/tasting/tasting_list.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/panels/trail_panel.h"
#include "ui/theme/banner.h"

#include <QBuffer>
#include <QClipboard>
#include <QDropEvent>
#include <QFile>
#include <QImageWriter>
#include <QLineEdit>
#include <QMimeData>
#include <QPainter>
#include <QUrl>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;
using namespace Qt::Literals::StringLiterals;

namespace {

QImage picture(int width, int height, QImage::Format format = QImage::Format_RGB32) {
    QImage image(width, height, format);
    image.fill(Qt::darkCyan);
    QPainter painter(&image);
    painter.fillRect(0, 0, width / 2, height / 2, Qt::white);
    return image;
}

QByteArray encoded(const QImage& image, const char* format, const QString& comment = {}) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter writer(&buffer, format);
    if (!comment.isEmpty()) writer.setText(u"Description"_s, comment);
    REQUIRE(writer.write(image));
    return bytes;
}

struct PhotoRoom : Desktop {
    PhotoRoom() {
        newDrink(u"Ox Skerry"_s);
        write({u"45 ml London dry gin"_s, u"20 ml lemon juice"_s});
        press(Qt::Key_Escape);
        keep(u"the idea"_s);
        REQUIRE(draft().base());
    }
    store::Workbook& book() { return window.desk().book()->book(); }
    base::RevisionId revision() { return draft().base()->id; }
    QString file(const QString& name, const QByteArray& bytes) {
        const auto at = dir.filePath(name);
        QFile out(at);
        REQUIRE(out.open(QIODevice::WriteOnly));
        REQUIRE(out.write(bytes) == bytes.size());
        return at;
    }
    PhotosDialog& openPhotos() {
        press(Qt::Key_J, Qt::ControlModifier | Qt::ShiftModifier);
        return dialog();
    }
    PhotosDialog& dialog() {
        auto* found = window.findChild<PhotosDialog*>();
        REQUIRE(found != nullptr);
        QApplication::setActiveWindow(found);
        REQUIRE(QTest::qWaitFor([found] { return found->isActiveWindow(); }));
        return *found;
    }
};

} // namespace

TEST_CASE("A photo is pasted opened taken off and put back by keyboard", "[ui][photos]") {
    PhotoRoom room;
    auto& dialog = room.openPhotos();
    CHECK(dialog.strip().count() == 0);
    QApplication::clipboard()->setText(u"no picture"_s);
    press(Qt::Key_V, Qt::ControlModifier);
    CHECK(dialog.banner().text().fact.contains(u"no picture on the clipboard"_s));
    QApplication::clipboard()->setImage(picture(640, 480));
    dialog.caption().setFocus();
    type(u"the honey sits at the bottom"_s);
    press(Qt::Key_V, Qt::ControlModifier);
    REQUIRE(dialog.strip().count() == 1);
    CHECK(dialog.caption().text().isEmpty());
    auto photos = room.book().photosOf(room.revision());
    REQUIRE(photos.size() == 1);
    CHECK(photos[0].caption == "the honey sits at the bottom");
    CHECK(photos[0].info.width == 640);
    REQUIRE(QApplication::focusWidget() == &dialog.strip());

    press(Qt::Key_Return);
    auto* view = dialog.findChild<PhotoView*>();
    REQUIRE(view != nullptr);
    CHECK(view->image().size() == QSize(640, 480));
    QTest::keyClick(view, Qt::Key_Escape);
    REQUIRE(QTest::qWaitFor([&] { return dialog.findChild<PhotoView*>() == nullptr; }));
    QApplication::setActiveWindow(&dialog);
    dialog.strip().setFocus();

    press(Qt::Key_Delete);
    CHECK(room.book().photosOf(room.revision()).empty());
    CHECK(dialog.strip().count() == 0);
    press(Qt::Key_Z, Qt::ControlModifier);
    REQUIRE(room.book().photosOf(room.revision()).size() == 1);
    CHECK(room.book().photosOf(room.revision())[0].id == photos[0].id);
    // Taken off and the dialog closed: it can be put back another time.
    press(Qt::Key_Delete);
    press(Qt::Key_Escape);
    CHECK(room.book().photosOf(room.revision()).empty());
    REQUIRE(QTest::qWaitFor([&] { return room.window.findChild<PhotosDialog*>() == nullptr; }));
    QApplication::setActiveWindow(&room.window);
    auto& again = room.openPhotos();
    CHECK(again.strip().count() == 0);
    press(Qt::Key_Z, Qt::ControlModifier);
    REQUIRE(again.strip().count() == 1);
    CHECK(room.book().photosOf(room.revision())[0].id == photos[0].id);
    press(Qt::Key_Escape);
    // The trail shows it under its mark.
    const auto& marks = room.window.bench().trail().values().marks;
    REQUIRE(marks.size() >= 1);
    CHECK_FALSE(marks[0].photo.isNull());
    room.window.bench().trail().grab();
}

TEST_CASE("Dropped files become photos and what cannot be one is named", "[ui][photos]") {
    PhotoRoom room;
    auto& dialog = room.openPhotos();
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(room.file(u"glass.png"_s, encoded(picture(300, 500), "png"))),
                  QUrl::fromLocalFile(room.file(u"list.txt"_s, "two lemons"))});
    QDragEnterEvent enter({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&dialog, &enter);
    CHECK(enter.isAccepted());
    QDropEvent drop(QPointF(10, 10), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&dialog, &drop);
    CHECK(dialog.strip().count() == 1);
    CHECK(dialog.banner().text().fact.contains(u"neither a JPEG nor a PNG"_s));
    CHECK(dialog.banner().text().consequence.contains(u"list.txt"_s));
    CHECK(room.book().photosOf(room.revision()).size() == 1);
}

TEST_CASE("Photos that are no whole pictures are refused and nothing of them is written",
          "[ui][photos][bad]") {
    PhotoRoom room;
    auto& dialog = room.openPhotos();
    const auto whole = encoded(picture(1200, 900), "jpeg", u"Taken at home"_s);
    const struct {
        const char* name;
        QByteArray bytes;
        const char16_t* says;
    } bad[] = {{"nothing.jpg", {}, u"empty"},
               {"half.jpg", whole.left(whole.size() / 2), u"ends before it is whole"},
               {"half.png", encoded(picture(400, 300), "png").chopped(30), u"ends before it is whole"},
               {"words.jpg", "not a picture at all", u"neither a JPEG nor a PNG"}};
    for (const auto& one : bad) {
        INFO(one.name);
        dialog.addFiles({room.file(QString::fromLatin1(one.name), one.bytes)});
        CHECK(dialog.banner().isVisible());
        CHECK(dialog.banner().text().fact.contains(QString::fromUtf16(one.says)));
        CHECK(dialog.banner().text().consequence.contains(QString::fromLatin1(one.name)));
        CHECK(room.book().photoTally().photos == 0);
    }
    dialog.addFiles({room.dir.filePath(u"missing.jpg"_s)});
    CHECK(dialog.banner().text().fact.contains(u"cannot be read"_s));
    CHECK(room.book().photoTally().photos == 0);
}

TEST_CASE("A photo of sixty megapixels is made small and its metadata is left behind", "[ui][photos][bad]") {
    const auto large = encoded(picture(9000, 6700, QImage::Format_Grayscale8), "jpeg", u"Taken at home"_s);
    REQUIRE(large.contains("Taken at home"));
    const auto small = photoFromBytes(large, u"large.jpg"_s);
    REQUIRE(small);
    const auto info = tasting::inspectPhoto(*small);
    REQUIRE(info);
    CHECK(info->width == 3000);
    CHECK(info->height == 2233);
    CHECK(small->find("Taken at home") == std::string::npos);
    CHECK(info->size < tasting::kMostPhotoBytes);
    // A PNG that is called .jpg is read as what it is, and one with see-through parts stays a PNG.
    const auto misnamed = photoFromBytes(encoded(picture(400, 300), "png"), u"misnamed.jpg"_s);
    REQUIRE(misnamed);
    CHECK(tasting::inspectPhoto(*misnamed)->width == 400);
    auto clear = picture(40, 30, QImage::Format_ARGB32);
    clear.setPixelColor(39, 29, Qt::transparent);
    const auto png = photoFromImage(clear, u"clear"_s);
    REQUIRE(png);
    CHECK(tasting::inspectPhoto(*png)->kind == tasting::PhotoKind::Png);
    CHECK(photoImage(*png, 3000).pixelColor(39, 29).alpha() == 0);
}

TEST_CASE("A photo pasted into a tasting is saved with it and opens from the list", "[ui][photos][tasting]") {
    PhotoRoom room;
    press(Qt::Key_T, Qt::ControlModifier);
    auto* page = qobject_cast<TastingPage*>(room.window.page());
    REQUIRE(page != nullptr);
    type(u"MK"_s);
    press(Qt::Key_Return);
    QApplication::clipboard()->setImage(picture(800, 600));
    press(Qt::Key_V, Qt::ControlModifier); // on a scale
    CHECK(page->form().photos().count() == 1);
    for (int i = 0; i < 7; ++i)
        press(Qt::Key_Return);
    type(u"cloudy"_s);
    QApplication::clipboard()->setImage(picture(300, 600));
    press(Qt::Key_V, Qt::ControlModifier); // in the note
    CHECK(page->form().photos().count() == 2);
    CHECK(page->input().note == u"cloudy"_s);
    CHECK(room.book().photoTally().photos == 0); // not before the tasting is
    // Left and found again.
    press(Qt::Key_Escape);
    press(Qt::Key_T, Qt::ControlModifier);
    page = qobject_cast<TastingPage*>(room.window.page());
    REQUIRE(page != nullptr);
    CHECK(page->form().photos().count() == 2);
    press(Qt::Key_Return, Qt::ControlModifier);
    const auto tastings = room.book().tastings(room.revision());
    REQUIRE(tastings.size() == 1);
    CHECK(room.book().photosOf(tastings[0].id).size() == 2);

    press(Qt::Key_T, Qt::ControlModifier);
    page = qobject_cast<TastingPage*>(room.window.page());
    REQUIRE(page != nullptr);
    CHECK(page->list().words().contains(u"2 photos"_s));
    page->list().setFocus(Qt::TabFocusReason);
    press(Qt::Key_P);
    auto& dialog = room.dialog();
    CHECK(dialog.strip().count() == 2);
    press(Qt::Key_Delete);
    CHECK(room.book().photosOf(tastings[0].id).size() == 1);
    CHECK(page->list().words().contains(u"a photo"_s));
    page->grab();
}
