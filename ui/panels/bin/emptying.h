#pragma once

#include "core/store/empty_bin.h"
#include "core/store/error.h"

#include <QDialog>

#include <optional>

class QLabel;

namespace stillroom::ui {

// Asks before the bin is emptied: what goes, and where the file as it was will stand.
class EmptyBinDialog : public QDialog {
    Q_OBJECT

  public:
    EmptyBinDialog(const QString& what, const QString& path, QWidget* parent = nullptr);
};

// Empties the bin of a closed workbook on a thread of its own, with a sign that it works: nothing else can be
// done meanwhile. nullopt: it failed, the file stands as it was, and `problem` says why.
std::optional<store::EmptiedBin> emptyBinOf(const std::string& path, QWidget* over,
                                            std::optional<store::StoreError>& problem);

} // namespace stillroom::ui
