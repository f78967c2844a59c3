#pragma once

#include "core/store/photos_of_book.h"

#include <QString>

namespace stillroom::ui {

class MainWindow;
class PhotosDialog;

// Photos of a revision: the one chosen on the trail or open as it was, else what the draft stands on.
void connectPhotos(MainWindow& window);
// The dialog over whatever is on the window; the trail follows what it changes.
PhotosDialog* showPhotos(MainWindow& window, const store::PhotoOf& of, const QString& title);

} // namespace stillroom::ui
