#include "ui/panels/bin/emptying.h"

#include "core/base/clock.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QCloseEvent>
#include <QDialogButtonBox>
#include <QEventLoop>
#include <QKeyEvent>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QThread>
#include <QVBoxLayout>

#include <memory>

namespace stillroom::ui {

namespace {

QVBoxLayout* columnIn(QDialog* dialog, const QString& title, const QString& about) {
    const auto& theme = Theme::current();
    dialog->setWindowTitle(title);
    auto* head = new QLabel(title, dialog);
    head->setFont(theme.font(Type::Title));
    auto* said = new WrapLabel(dialog);
    said->setText(about);
    said->setFont(theme.font(Type::Control));
    auto* column = new QVBoxLayout(dialog);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->setSpacing(theme.pxInt(10));
    column->addWidget(head);
    column->addWidget(said);
    dialog->setMinimumWidth(theme.pxInt(480));
    return column;
}

// Cannot be closed: what it stands for cannot be broken off half-way.
class WorkingDialog : public QDialog {
  public:
    using QDialog::QDialog;

  protected:
    void closeEvent(QCloseEvent* event) override { event->ignore(); }
    void keyPressEvent(QKeyEvent* event) override { event->accept(); }
};

} // namespace

EmptyBinDialog::EmptyBinDialog(const QString& what, const QString& path, QWidget* parent) : QDialog(parent) {
    auto* column = columnIn(
        this, tr("Empty the bin"),
        tr("For good out of this book, with all revisions, tastings and photos: %1. The file as it is now "
           "is kept beside it, as %2-before-emptying. What something outside the bin rests on stays.")
            .arg(what, path));
    auto* buttons = new QDialogButtonBox(this);
    auto* empty = buttons->addButton(tr("&Empty it"), QDialogButtonBox::AcceptRole);
    empty->setAutoDefault(false);
    auto* leave = buttons->addButton(tr("&Leave it"), QDialogButtonBox::RejectRole);
    leave->setProperty("act", true);
    leave->setDefault(true);
    leave->setFocus();
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    column->addWidget(buttons);
}

std::optional<store::EmptiedBin> emptyBinOf(const std::string& path, QWidget* over,
                                            std::optional<store::StoreError>& problem) {
    std::optional<store::EmptiedBin> emptied;
    const std::unique_ptr<QThread> thread(QThread::create([&] {
        try {
            const base::SystemClock clock;
            emptied = store::emptyBin(path, clock);
        } catch (const store::StoreError& error) {
            problem = error;
        } catch (const std::exception& error) {
            problem = store::StoreError(store::StoreErrorKind::Io, 0, path, error.what());
        }
    }));
    WorkingDialog working(over);
    auto* column = columnIn(&working, QObject::tr("Emptying the bin"),
                            QObject::tr("A new file is written, checked, and put in the old one's place."));
    auto* bar = new QProgressBar(&working);
    bar->setRange(0, 0);
    bar->setTextVisible(false);
    bar->setAccessibleName(QObject::tr("At work"));
    column->addWidget(bar);
    working.setModal(true);
    QEventLoop loop;
    QObject::connect(thread.get(), &QThread::finished, &loop, &QEventLoop::quit);
    working.show();
    thread->start();
    loop.exec();
    thread->wait();
    return emptied;
}

} // namespace stillroom::ui
