#include "ui/dialogs/keys_dialog.h"

#include "ui/actions/actions.h"
#include "ui/theme/theme.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QTableWidget>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

struct TypedKey {
    const char* key;
    const char* does;
};

// Keys that act inside a field, and so are no actions.
constexpr TypedKey kTyped[] = {
    {QT_TRANSLATE_NOOP("Keys", "Enter"), QT_TRANSLATE_NOOP("Keys", "Next line, while writing lines")},
    {QT_TRANSLATE_NOOP("Keys", "Tab"), QT_TRANSLATE_NOOP("Keys", "Next cell")},
    {QT_TRANSLATE_NOOP("Keys", "Up, Down"),
     QT_TRANSLATE_NOOP("Keys", "In an amount: the next step of a jigger")},
    {QT_TRANSLATE_NOOP("Keys", "Esc"), QT_TRANSLATE_NOOP("Keys", "As it was before this cell was opened")},
    {QT_TRANSLATE_NOOP("Keys", "1 … 9"), QT_TRANSLATE_NOOP("Keys", "Answer a question about a line")},
};

} // namespace

QString KeysDialog::asText() {
    QString text;
    for (const auto& info : Actions::all())
        text += Actions::text(info.act) + QLatin1Char('\t') + Actions::keyText(info.act) + QLatin1Char('\t') +
                Actions::help(info.act) + QLatin1Char('\n');
    return text;
}

KeysDialog::KeysDialog(QWidget* parent) : QDialog(parent) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Keys"));
    const auto& all = Actions::all();
    const int typed = static_cast<int>(std::size(kTyped));
    auto* table = new QTableWidget(static_cast<int>(all.size()) + typed, 3, this);
    table->setAccessibleName(tr("Keys"));
    table->setHorizontalHeaderLabels({tr("Key"), tr("Action"), tr("What it does")});
    table->verticalHeader()->hide();
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionMode(QAbstractItemView::NoSelection);
    table->setShowGrid(false);
    table->setFrameShape(QFrame::NoFrame);
    const auto put = [&](int row, const QString& key, const QString& text, const QString& help) {
        table->setItem(row, 0, new QTableWidgetItem(key));
        table->setItem(row, 1, new QTableWidgetItem(text));
        table->setItem(row, 2, new QTableWidgetItem(help));
    };
    int row = 0;
    for (const auto& key : kTyped) {
        put(row, QCoreApplication::translate("Keys", key.key), QString(),
            QCoreApplication::translate("Keys", key.does));
        ++row;
    }
    for (const auto& info : all) {
        put(row, Actions::keyText(info.act), Actions::text(info.act), Actions::help(info.act));
        ++row;
    }
    table->resizeColumnsToContents();
    table->horizontalHeader()->setStretchLastSection(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(table);
    layout->addWidget(buttons);
    resize(theme.pxInt(760), theme.pxInt(640));
}

} // namespace stillroom::ui
